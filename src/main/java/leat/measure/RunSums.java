package leat.measure;

import java.util.EnumMap;
import java.util.Map;
import leat.measure.absence.Absence;
import leat.phase.Demand;
import leat.wire.State;

/** What the figures of a run are made of: means of its seconds. Thread-confined. */
final class RunSums {

    /** A mean of fewer seconds says little of a level under strokes. */
    private static final long LEAST_SECONDS = 5;

    private final Map<Demand, Means> byDemand = new EnumMap<>(Demand.class);
    private final Means all = new Means();

    RunSums() {
        byDemand.put(Demand.DRAWN, new Means());
        byDemand.put(Demand.PAUSED, new Means());
    }

    void add(SteadySecond second) {
        if (second.boosted.count() == 0) {
            return;
        }
        all.add(second);
        byDemand.forEach(
                (demand, means) -> {
                    if (demand == second.demand) {
                        means.add(second);
                    } else {
                        means.breakOff();
                    }
                });
    }

    void clear() {
        all.clear();
        byDemand.values().forEach(Means::clear);
    }

    /**
     * @param minInletPsi no ratio is measured below this inlet pressure
     * @param hasInlet whether the machine has a gauge before the booster
     */
    Map<Measurand, Figure> figures(double minInletPsi, boolean hasInlet) {
        Means drawn = byDemand.get(Demand.DRAWN);
        boolean told = drawn.boosted.count() >= LEAST_SECONDS;
        Means under = told ? drawn : all;
        Figure level = mean(under.boosted);
        Figure inlet = hasInlet ? mean(under.inlet) : Figure.absent(Absence.NO_INLET_GAUGE);
        Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
        figures.put(Measurand.TOP, mean(all.boosted));
        figures.put(Measurand.LOADED, told ? level : Figure.absent(Absence.NO_STROKES_SEEN));
        figures.put(
                Measurand.UNLOADED,
                told
                        ? mean(byDemand.get(Demand.PAUSED).boosted)
                        : Figure.absent(Absence.NO_STROKES_SEEN));
        figures.put(Measurand.INLET_RUNNING, inlet);
        figures.put(Measurand.RATIO, ratio(level, inlet, minInletPsi));
        figures.put(Measurand.FILTER_LOSS, mean(under.loss));
        figures.put(Measurand.WANDER, under.wander());
        return figures;
    }

    private static Figure ratio(Figure level, Figure inlet, double minInletPsi) {
        if (!level.isPresent() || !inlet.isPresent()) {
            return level.isPresent() ? inlet : level;
        }
        return inlet.get() < minInletPsi ? Figure.absent(Absence.INLET_TOO_LOW) : level.over(inlet);
    }

    private static Figure mean(Moments seconds) {
        return seconds.count() < LEAST_SECONDS
                ? Figure.absent(Absence.STEADY_TOO_SHORT)
                : Figure.of(
                        seconds.mean(),
                        StudentT.factor95(seconds.count() - 1)
                                * seconds.sd()
                                / Math.sqrt(seconds.count()));
    }

    void keep(State state) {
        state.part("all", all::keep);
        byDemand.forEach((demand, means) -> state.part(demand.name(), means::keep));
    }

    /** Means of seconds of one kind. */
    private static final class Means {

        /** A level that is compared with itself so many seconds before shows waves, not drift. */
        private static final int APART_SECONDS = 4;

        private static final long LEAST_PAIRS = 10;

        private final Moments boosted = new Moments();
        private final Moments inlet = new Moments();
        private final Moments loss = new Moments();
        private final double[] before = new double[APART_SECONDS];
        private int unbroken;
        private long pairs;
        private double pairSquares;

        void add(SteadySecond second) {
            double psi = second.boosted.mean();
            boosted.add(psi);
            int at = unbroken % APART_SECONDS;
            if (unbroken >= APART_SECONDS) {
                pairs++;
                pairSquares += (psi - before[at]) * (psi - before[at]);
            }
            before[at] = psi;
            unbroken++;
            if (second.inlet.count() > 0) {
                inlet.add(second.inlet.mean());
            }
            if (second.filtered.count() > 0) {
                loss.add(psi - second.filtered.mean());
            }
        }

        /** The seconds that follow are not those after the last one. */
        void breakOff() {
            unbroken = 0;
        }

        /** Standard deviation of the means of seconds that lie a few seconds apart, psi. */
        Figure wander() {
            return pairs < LEAST_PAIRS
                    ? Figure.absent(Absence.STEADY_TOO_SHORT)
                    : Figure.of(
                            Math.sqrt(pairSquares / pairs / 2),
                            StudentT.factor95(pairs - 1)
                                    * Math.sqrt(pairSquares / pairs / 2)
                                    / Math.sqrt(2.0 * pairs / APART_SECONDS));
        }

        void clear() {
            unbroken = 0;
            pairs = 0;
            pairSquares = 0;
            boosted.clear();
            inlet.clear();
            loss.clear();
        }

        void keep(State state) {
            state.part("boosted", boosted::keep);
            state.part("inlet", inlet::keep);
            state.part("loss", loss::keep);
            double[] kept = state.keep("before", before);
            if (kept.length != APART_SECONDS) {
                throw new IllegalArgumentException("state is damaged: " + kept.length + " means");
            }
            System.arraycopy(kept, 0, before, 0, APART_SECONDS);
            unbroken = state.keep("unbroken", unbroken);
            pairs = state.keep("pairs", pairs);
            pairSquares = state.keep("pairSquares", pairSquares);
        }
    }
}
