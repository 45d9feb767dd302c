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
            breakOff();
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

    /** The next second does not follow on the last one. */
    void breakOff() {
        all.breakOff();
        byDemand.values().forEach(Means::breakOff);
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
        figures.put(Measurand.WANDER, under.waves.wander());
        figures.put(
                Measurand.UNREST,
                hasInlet ? under.unrest.psi() : Figure.absent(Absence.NO_INLET_GAUGE));
        figures.put(
                Measurand.INLET_WANDER,
                hasInlet ? under.inletWaves.wander() : Figure.absent(Absence.NO_INLET_GAUGE));
        figures.put(
                Measurand.INLET_RIPPLE,
                hasInlet ? under.inletRipple() : Figure.absent(Absence.NO_INLET_GAUGE));
        figures.put(
                Measurand.SWAY,
                hasInlet ? under.sway.correlation() : Figure.absent(Absence.NO_INLET_GAUGE));
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
                : Figure.of(seconds.mean(), seconds.doubtOfMean());
    }

    void keep(State state) {
        state.part("all", all::keep);
        byDemand.forEach((demand, means) -> state.part(demand.name(), means::keep));
    }

    /** Means of seconds of one kind. */
    private static final class Means {

        private final Moments boosted = new Moments();
        private final Moments inlet = new Moments();
        private final Moments loss = new Moments();

        /** Variance within seconds. */
        private final Moments ripple = new Moments();

        private final Waves waves = new Waves();
        private final Waves inletWaves = new Waves();
        private final Sway sway = new Sway();
        private final Unrest unrest = new Unrest();

        void add(SteadySecond second) {
            double psi = second.boosted.mean();
            boosted.add(psi);
            waves.add(psi);
            if (second.inlet.count() > 0) {
                inlet.add(second.inlet.mean());
                inletWaves.add(second.inlet.mean());
                sway.add(second.inlet.mean(), psi);
                ripple.add(second.inlet.sd() * second.inlet.sd());
                unrest.add(second.inlet.mean(), psi, second.noiseOfMeanPsi());
            } else {
                inletWaves.breakOff();
                sway.breakOff();
                unrest.breakOff();
            }
            if (second.filtered.count() > 0) {
                loss.add(psi - second.filtered.mean());
            }
        }

        /** The seconds that follow are not compared with the last ones. */
        void breakOff() {
            waves.breakOff();
            inletWaves.breakOff();
            sway.breakOff();
            unrest.breakOff();
        }

        /** Standard deviation within seconds, psi. */
        Figure inletRipple() {
            return ripple.count() < LEAST_SECONDS
                    ? Figure.absent(Absence.STEADY_TOO_SHORT)
                    : Figure.of(Math.sqrt(Math.max(0, ripple.mean())));
        }

        void clear() {
            waves.clear();
            inletWaves.clear();
            sway.clear();
            unrest.clear();
            boosted.clear();
            inlet.clear();
            loss.clear();
            ripple.clear();
        }

        void keep(State state) {
            state.part("boosted", boosted::keep);
            state.part("inlet", inlet::keep);
            state.part("loss", loss::keep);
            state.part("ripple", ripple::keep);
            waves.keep(state);
            state.part("inletWaves", inletWaves::keep);
            state.part("sway", sway::keep);
            state.part("unrest", unrest::keep);
        }
    }

    /** How much a pressure moves from second to second. */
    private static final class Waves {

        /** A level is compared with itself within so many seconds: waves show, drift does not. */
        private static final long BLOCK_SECONDS = 10;

        private static final long LEAST_FREE = 8;

        /** Neighbouring seconds of a wave are alike: so many count as one. */
        private static final double ALIKE = 2;

        /** The last seconds in a row. */
        private final Moments block = new Moments();

        private long free;
        private double blockSquares;

        void add(double psi) {
            block.add(psi);
            if (block.count() == BLOCK_SECONDS) {
                breakOff();
            }
        }

        void breakOff() {
            free += Math.max(0, block.count() - 1);
            blockSquares += squares(block);
            block.clear();
        }

        private static double squares(Moments moments) {
            return moments.sd() * moments.sd() * Math.max(0, moments.count() - 1);
        }

        /** Standard deviation of the means of seconds about that of ten in a row, psi. */
        Figure wander() {
            long all = free + Math.max(0, block.count() - 1);
            if (all < LEAST_FREE) {
                return Figure.absent(Absence.STEADY_TOO_SHORT);
            }
            double sd = Math.sqrt((blockSquares + squares(block)) / all);
            return Figure.of(sd, StudentT.factor95(all) * sd / Math.sqrt(2.0 * all / ALIKE));
        }

        void clear() {
            block.clear();
            free = 0;
            blockSquares = 0;
        }

        void keep(State state) {
            state.part("block", block::keep);
            free = state.keep("free", free);
            blockSquares = state.keep("blockSquares", blockSquares);
        }
    }
}
