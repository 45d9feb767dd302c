package leat.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.signal.Channel;

/**
 * How plainly the gauges that a machine has show that something is wrong, found from pressures
 * without noise and compared with the machine's own sound runs. What counts as plain is the bench's
 * own, from common practice.
 *
 * @param grade how plainly
 * @param signs by what, in words
 */
record Plain(Grade grade, List<String> signs) {

    /** How plainly something shows. */
    enum Grade {
        NOTHING,
        MILD,
        MIDDLE,
        GROSS
    }

    private static final double LEAST_LOADED_SECONDS = 10;

    Plain {
        signs = List.copyOf(signs);
    }

    static Plain always() {
        return new Plain(Grade.GROSS, List.of("there or not"));
    }

    /** Share of the readings of a gauge that are lost. */
    static Plain lost(double share) {
        Signs signs = new Signs();
        signs.above("lost", share, 0.05, 0.1, 0.17);
        return signs.all();
    }

    /**
     * What faulty runs show beside sound ones.
     *
     * @param own the middle of the sound runs
     * @param runs the faulty ones, one by one
     */
    static Plain of(DrawnMachine machine, Seen own, List<Seen> runs) {
        Seen now = Seen.middle(runs);
        Signs signs = new Signs();
        if (now.loadedSeconds() >= LEAST_LOADED_SECONDS) {
            signs.above("loaded low", 1 - now.loadedPsi() / own.loadedPsi(), 0.03, 0.08, 0.15);
            signs.above("loaded high", now.loadedPsi() / own.loadedPsi() - 1, 0.04, 0.08, 0.15);
            signs.above("wander", now.wanderPsi() - own.wanderPsi(), 0.8, 1.6, 3);
            if (own.loadedPsi() > 88 && now.loadedPsi() < 79) {
                signs.add("loaded below 80", Grade.GROSS);
            }
            if (machine.has(Channel.FILTERED)) {
                signs.above("loss", now.lossPsi() - own.lossPsi(), 2, 4, Double.MAX_VALUE);
                signs.above("loss", now.lossPsi(), Double.MAX_VALUE, 10.5, 20.5);
            }
        }
        signs.above("unloaded low", 1 - now.unloadedPsi() / own.unloadedPsi(), 0.03, 0.08, 0.15);
        signs.above("unloaded high", now.unloadedPsi() / own.unloadedPsi() - 1, 0.04, 0.08, 0.15);
        signs.above("inlet low", own.inletPsi() - now.inletPsi(), 4, 8, Double.MAX_VALUE);
        signs.above("inlet below", -now.inletPsi(), Double.MAX_VALUE, -24, -20);
        signs.above("starved", -now.lowestInletPsi(), Double.MAX_VALUE, Double.MAX_VALUE, -4.5);
        if (machine.line().build().inletTap() == leat.bench.line.InletTap.BEFORE_VALVE) {
            signs.above("sag", now.sagPsi() - own.sagPsi(), 2.5, 5, 8);
        }
        boolean stands = now.fallingPsi() < 0.8;
        signs.above("rest", now.restPsi() - own.restPsi(), 2, 4, stands ? 6 : Double.MAX_VALUE);
        double rise = runs.stream().mapToDouble(Seen::riseSeconds).max().orElse(Double.NaN);
        signs.above("rise", rise, Math.max(1.4 * own.riseSeconds(), 2), 3.3, 6.2);
        signs.above("rise of its own", rise / own.riseSeconds(), 1.4, 2, Double.MAX_VALUE);
        signs.above("reached", now.reachedSeconds(), 6, 8, 12.5);
        signs.above("fall", now.fallSeconds() / own.fallSeconds(), 1.4, 1.9, 3);
        signs.above("quick fall", own.fallSeconds() / now.fallSeconds(), 1.4, 1.9, 3);
        if (machine.has(Channel.RUNNING) || machine.has(Channel.VALVE)) {
            signs.above("dead", now.deadSeconds() - own.deadSeconds(), 0.4, 0.9, 1.8);
        }
        return signs.all();
    }

    /** Whether somebody with these gauges would stop the booster. */
    static boolean isCritical(List<Seen> runs) {
        return runs.stream()
                .anyMatch(
                        run ->
                                run.lowestInletPsi() < 7
                                        || run.ratio() < 1.3
                                        || run.unloadedPsi() / run.inletPsi() < 1.3
                                        || run.reachedSeconds() > 10.5);
    }

    /** Collects what shows. */
    private static final class Signs {

        private final List<String> words = new ArrayList<>();
        private Grade worst = Grade.NOTHING;

        void above(String what, double value, double mild, double middle, double gross) {
            Optional<Grade> grade =
                    value > gross
                            ? Optional.of(Grade.GROSS)
                            : value > middle
                                    ? Optional.of(Grade.MIDDLE)
                                    : value > mild ? Optional.of(Grade.MILD) : Optional.empty();
            grade.ifPresent(
                    found -> add(String.format(Locale.ROOT, "%s %.2f", what, value), found));
        }

        void add(String what, Grade grade) {
            words.add(what + " " + grade);
            worst = worst.compareTo(grade) < 0 ? grade : worst;
        }

        Plain all() {
            return new Plain(worst, words);
        }
    }
}
