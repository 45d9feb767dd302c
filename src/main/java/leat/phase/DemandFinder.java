package leat.phase;

import java.util.Arrays;
import leat.signal.Gauges.Switch;
import leat.wire.State;

/**
 * Tells the seconds of a run in which the intensifier draws water from those in which it does not.
 * Thread-confined to one watch.
 *
 * <p>Strokes make the boosted pressure swing within each second. How much they do so on this
 * machine, and how much a quiet second does, is learned from how often each swing has been seen.
 * Where there are no two kinds of seconds, only those that swing far more than their noise are
 * known. A contact, where one is wired and known, decides alone.
 */
public final class DemandFinder {

    /** Seconds that must have passed before one can be told; no pause as short is seen. */
    public static final int LATER_SECONDS = 3;

    private static final int RING = 2 * LATER_SECONDS + 1;
    private static final int NEAR_SECONDS = 2;

    /** Swings are counted in steps of this ratio from the smallest. */
    private static final double STEP = Math.log(1.25);

    private static final double SMALLEST_PSI = 0.02;
    private static final int STEPS = 36;

    /** A count is worth half after ten minutes of running. */
    private static final double FADES = Math.pow(0.5, 1.0 / 600);

    private static final double LEAST_SECONDS = 10;

    /** Means of the two kinds must lie so many standard deviations apart (Ashman's D). */
    private static final double LEAST_APART = 4;

    /** And so many steps, which is a ratio of 1.75. */
    private static final double LEAST_STEPS = 2.5;

    /** The grain of the counts. */
    private static final double LEAST_SPREAD = 0.3;

    /** A second with fewer readings may have missed a stroke. */
    private static final long LEAST_READINGS = 5;

    /** A variance of so many times that of the noise is none of noise: not in twenty readings. */
    private static final double PLAIN_VARIANCES = 3;

    /** Whether a second swings. */
    private enum Swing {
        NONE,
        QUIET,
        SWINGS
    }

    private final double[] counts = new double[STEPS];
    private final Swing[] swings = new Swing[RING];

    public DemandFinder() {
        forget();
    }

    /** The run is over: its last seconds say nothing of the next. What is usual stays. */
    public void forget() {
        Arrays.fill(swings, Swing.NONE);
    }

    /**
     * A second of the run has passed.
     *
     * @param readings boosted readings in it
     * @param swingPsi their standard deviation about their own mean
     * @param noisePsi standard deviation of a reading by the steps from one to the next
     * @param cutting what the contact says
     * @return what the second {@link #LATER_SECONDS} before it was
     */
    public Demand second(long readings, double swingPsi, double noisePsi, Switch cutting) {
        System.arraycopy(swings, 0, swings, 1, RING - 1);
        boolean byContact = cutting != Switch.UNKNOWN;
        if (byContact) {
            swings[0] = cutting == Switch.ON ? Swing.SWINGS : Swing.QUIET;
        } else if (readings < LEAST_READINGS) {
            swings[0] = Swing.NONE;
        } else {
            count(swingPsi);
            swings[0] = swing(swingPsi, noisePsi);
        }
        return told(byContact);
    }

    private void count(double swingPsi) {
        for (int i = 0; i < STEPS; i++) {
            counts[i] *= FADES;
        }
        counts[step(swingPsi)]++;
    }

    private static int step(double swingPsi) {
        double above = Math.log(Math.max(swingPsi, SMALLEST_PSI) / SMALLEST_PSI);
        return Math.min(STEPS - 1, (int) (above / STEP));
    }

    private Swing swing(double swingPsi, double noisePsi) {
        int threshold = threshold();
        if (threshold > 0) {
            return step(swingPsi) >= threshold ? Swing.SWINGS : Swing.QUIET;
        }
        return swingPsi * swingPsi > PLAIN_VARIANCES * noisePsi * noisePsi
                ? Swing.SWINGS
                : Swing.NONE;
    }

    /** The first step of the swinging seconds; 0 where there are no two kinds. */
    private int threshold() {
        Kind all = new Kind();
        for (int i = 0; i < STEPS; i++) {
            all.add(i, counts[i]);
        }
        Kind quiet = new Kind();
        Kind swinging = new Kind();
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int at = 1; at < STEPS; at++) {
            quiet.add(at - 1, counts[at - 1]);
            if (quiet.seconds < LEAST_SECONDS || all.seconds - quiet.seconds < LEAST_SECONDS) {
                continue;
            }
            swinging.difference(all, quiet);
            double error = quiet.error(all.seconds) + swinging.error(all.seconds);
            if (error < least) {
                least = error;
                best = quiet.isApartFrom(swinging) ? at : 0;
            }
        }
        return best;
    }

    /** Seconds of one kind: their number, and mean and spread of their swing in steps. */
    private static final class Kind {
        private double seconds;
        private double sum;
        private double squares;

        void add(int step, double count) {
            seconds += count;
            sum += count * step;
            squares += count * step * step;
        }

        void difference(Kind all, Kind other) {
            seconds = all.seconds - other.seconds;
            sum = all.sum - other.sum;
            squares = all.squares - other.squares;
        }

        private double mean() {
            return sum / seconds;
        }

        private double spread() {
            double variance = Math.max(0, squares / seconds - mean() * mean());
            return Math.max(LEAST_SPREAD, Math.sqrt(variance));
        }

        /** Minimum error threshold (Kittler and Illingworth 1986, cited from memory). */
        double error(double all) {
            double share = seconds / all;
            return share * (Math.log(spread()) - Math.log(share));
        }

        boolean isApartFrom(Kind other) {
            double gap = other.mean() - mean();
            return gap >= LEAST_STEPS
                    && gap >= LEAST_APART * Math.hypot(spread(), other.spread()) / Math.sqrt(2);
        }
    }

    private Demand told(boolean byContact) {
        Demand now = at(LATER_SECONDS, byContact);
        boolean changes =
                isOther(now, at(LATER_SECONDS - 1, byContact))
                        || isOther(now, at(LATER_SECONDS + 1, byContact));
        return changes ? Demand.CHANGING : now;
    }

    private static boolean isOther(Demand now, Demand beside) {
        return now != beside && now != Demand.UNKNOWN && beside != Demand.UNKNOWN;
    }

    /** One second by itself and its neighbours: strokes may be slower than one a second. */
    private Demand at(int ago, boolean byContact) {
        if (swings[ago] == Swing.NONE) {
            return Demand.UNKNOWN;
        }
        boolean swings0 = swings[ago] == Swing.SWINGS;
        if (byContact) {
            return swings0 ? Demand.DRAWN : Demand.PAUSED;
        }
        boolean later = swingsWithin(ago - NEAR_SECONDS, ago - 1);
        boolean before = swingsWithin(ago + 1, ago + NEAR_SECONDS);
        boolean drawn = swings0 ? later || before : later && before;
        return drawn ? Demand.DRAWN : Demand.PAUSED;
    }

    private boolean swingsWithin(int from, int to) {
        for (int i = Math.max(0, from); i <= Math.min(RING - 1, to); i++) {
            if (swings[i] == Swing.SWINGS) {
                return true;
            }
        }
        return false;
    }

    public void keep(State state) {
        double[] kept = state.keep("counts", counts);
        if (kept.length != STEPS) {
            throw new IllegalArgumentException("state is damaged: " + kept.length + " counts");
        }
        System.arraycopy(kept, 0, counts, 0, STEPS);
        for (int i = 0; i < RING; i++) {
            swings[i] = state.keep("swing" + i, swings[i]);
        }
    }
}
