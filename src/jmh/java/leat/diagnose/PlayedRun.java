package leat.diagnose;

import static java.util.Objects.requireNonNull;

/**
 * One run that the bench played, as a watch saw it, with what was wrong in truth. Immutable.
 *
 * @param machine number of the machine within its seed
 * @param seed of the machines that it is one of
 * @param make which model of a line it is
 * @param wiring kind of pump, of regulator and of tap, and the channels, in words
 * @param deed what was played: {@code own} while the machine was learned, the name of a trouble, or
 *     of a day on which nothing is wrong
 * @param number of the case within its machine; runs of one case follow on each other
 * @param cause what is wrong
 * @param size how bad it was made; 0 where nothing is wrong
 * @param plain how plainly gauges without noise show it in this run: 0 not at all, 1 mild, 2
 *     middle, 3 gross
 * @param plainOfCase likewise in all runs of its case together, or in one of them
 * @param seen what leat measured
 */
public record PlayedRun(
        int machine,
        long seed,
        Make make,
        String wiring,
        String deed,
        int number,
        Cause cause,
        double size,
        int plain,
        int plainOfCase,
        Observation seen) {

    /** Which model of a line played. */
    public enum Make {
        /** The bench's own, {@code leat.bench.line}. */
        BENCH,
        /** A rough one of other equations and other figures. */
        ROUGH
    }

    /** The deed of runs while a machine is learned. */
    public static final String OWN = "own";

    public PlayedRun {
        requireNonNull(make, "make");
        requireNonNull(cause, "cause");
        requireNonNull(seen, "seen");
        plainOfCase = Math.max(plainOfCase, plain);
    }

    boolean isOwn() {
        return deed.equals(OWN);
    }

    /** Which machine of all. */
    String whose() {
        return make + " " + seed + "/" + machine;
    }
}
