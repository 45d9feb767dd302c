package leat.measure;

import java.util.EnumMap;
import java.util.Map;

/**
 * One start of the booster laid out for measuring, with times in seconds from its start. Finds
 * where the boosted pressure left its base and reads every figure of the start off the two curves.
 */
final class Climb {

    private static final double BASE_SECONDS = 5;
    private static final double TOP_SECONDS = 3;
    private static final double DEPARTED_PSI = 3;

    /** A base whose last second differs by more from the seconds before is moving. */
    private static final double MOVING_PSI = 2;

    private static final double LAST_SECONDS = 1;
    private static final double MOVING_BASE_SECONDS = 0.5;
    private static final double AROUND_LOWEST_SECONDS = 0.1;

    /** After a restart within seconds the pressure falls on for a while. */
    private static final double FALLS_ON_SECONDS = 3;

    private static final double JUST_BEFORE = 1e-6;
    private static final String NOTHING_BEFORE = "no reading before the start";

    private final Stretch curve;
    private final Stretch supply;
    private final double end;
    private final boolean commanded;
    private final double minInletPsi;
    private final int lowest;
    private final int departed;

    /** The moment of the departure; 0 where there was none. */
    private final double moved;

    /** The start: the run signal, or the departure where that came first. */
    private final double zero;

    /**
     * @param curve boosted pressure from some seconds before the start to the seconds of the top
     * @param supply inlet pressure of the same time
     * @param endSeconds end of the seconds whose median is the top
     * @param commanded whether a run signal gave the start
     * @param minInletPsi no ratio is measured below this inlet pressure
     */
    Climb(Stretch curve, Stretch supply, double endSeconds, boolean commanded, double minInletPsi) {
        this.curve = curve;
        this.supply = supply;
        this.end = endSeconds;
        this.commanded = commanded;
        this.minInletPsi = minInletPsi;
        lowest = curve.lowest(Math.min(FALLS_ON_SECONDS, endSeconds));
        departed = departure();
        moved = departed < 0 ? 0 : curve.second(departed);
        zero = Math.min(0, moved);
    }

    /** Seconds from the start that was told to the one that the pressure shows; 0 or negative. */
    double zeroSecond() {
        return zero;
    }

    /** Every figure of a start that reached a level. */
    Startup risen(long startedAtMicros, long atMicros) {
        Figure top = curve.median(end - TOP_SECONDS, end, "no reading at the top");
        Figure inletRunning = supply.median(end - TOP_SECONDS, end, "no inlet reading at the top");
        return startup(startedAtMicros, atMicros, top, inletRunning, true);
    }

    /**
     * What can be said of a start that reached no level.
     *
     * @param because why there is no top
     */
    Startup notRisen(long startedAtMicros, long atMicros, String because) {
        Figure inletRunning =
                end >= TOP_SECONDS
                        ? supply.median(end - TOP_SECONDS, end, "no inlet reading at the end")
                        : Figure.absent(because);
        return startup(startedAtMicros, atMicros, Figure.absent(because), inletRunning, false);
    }

    private Startup startup(
            long startedAtMicros, long atMicros, Figure top, Figure inletRunning, boolean risen) {
        Figure base = base();
        Figure inletRest = supply.median(zero - BASE_SECONDS, zero - JUST_BEFORE, NOTHING_BEFORE);
        Transition rise = transition(base, top);
        Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
        figures.put(Measurand.BASE, base);
        figures.put(Measurand.TOP, top);
        figures.put(Measurand.INLET_REST, inletRest);
        figures.put(Measurand.INLET_RUNNING, inletRunning);
        figures.put(Measurand.DEAD, dead());
        figures.put(Measurand.RISE, rise.durationSeconds());
        figures.put(Measurand.RISE_FROM_INLET, transition(inletRunning, top).durationSeconds());
        figures.put(Measurand.START_TO_90, startTo90(rise));
        figures.put(Measurand.OVERSHOOT, overshoot(rise, base, top));
        figures.put(Measurand.RATIO, ratio(top, inletRunning));
        figures.put(Measurand.TIME_TO_DOUBLE, timeToDouble(inletRunning));
        return new Startup(startedAtMicros, atMicros, figures, risen);
    }

    /**
     * Index of the first reading above the base of the climb; -1 for none. The climb is sought from
     * the lowest reading on, so that a pressure still falling from an earlier run is not taken for
     * one, and its foot backwards from there, so that noise is not taken for one either.
     */
    private int departure() {
        if (lowest < 0) {
            return -1;
        }
        double foot = curve.psi(lowest) + DEPARTED_PSI;
        int climbing =
                curve.firstTwoAbove(curve.psi(lowest) + Transition.LEAST_AMPLITUDE_PSI, lowest);
        return climbing < 0
                ? curve.firstTwoAbove(foot, lowest)
                : curve.lastAtOrBelow(foot, climbing) + 1;
    }

    /**
     * Level before the climb: the median of the seconds of rest before the start; of a pressure
     * that still moved, its lowest point or the last moment.
     */
    private Figure base() {
        double before = zero - JUST_BEFORE;
        Figure early = curve.median(zero - BASE_SECONDS, zero - LAST_SECONDS, NOTHING_BEFORE);
        Figure late = curve.median(zero - LAST_SECONDS, before, NOTHING_BEFORE);
        double fallen = early.isPresent() && late.isPresent() ? early.get() - late.get() : 0;
        if (fallen > MOVING_PSI) {
            double around = curve.second(lowest);
            return curve.median(
                    around - AROUND_LOWEST_SECONDS, around + AROUND_LOWEST_SECONDS, NOTHING_BEFORE);
        }
        double seconds = fallen < -MOVING_PSI ? MOVING_BASE_SECONDS : BASE_SECONDS;
        return curve.median(zero - seconds, before, NOTHING_BEFORE);
    }

    private Transition transition(Figure low, Figure high) {
        for (Figure figure : new Figure[] {low, high}) {
            if (!figure.isPresent()) {
                Figure why = Figure.absent(figure.absentBecause());
                return new Transition(why, why, 0);
            }
        }
        return Transition.of(curve, Math.max(0, departed), low.get(), high.get());
    }

    private Figure dead() {
        if (!commanded) {
            return Figure.absent("no run signal is wired");
        }
        if (departed < 0) {
            return Figure.absent("the pressure did not leave its base");
        }
        return moved < 0
                ? Figure.absent("the pressure moved before the run signal")
                : Figure.of(moved);
    }

    private Figure startTo90(Transition rise) {
        Figure reached = rise.reach90Second();
        return reached.isPresent() ? Figure.of(reached.get() - zero) : reached;
    }

    private Figure overshoot(Transition rise, Figure base, Figure top) {
        if (!rise.reach90Second().isPresent()) {
            return rise.reach90Second();
        }
        double over = curve.highest(rise.top90Index()) - top.get();
        return Figure.of(Math.max(0, over) / (top.get() - base.get()) * 100);
    }

    private Figure ratio(Figure top, Figure inletRunning) {
        if (!top.isPresent()) {
            return top;
        }
        if (!inletRunning.isPresent()) {
            return inletRunning;
        }
        return inletRunning.get() < minInletPsi
                ? Figure.absent("the inlet pressure is too low to divide by")
                : Figure.of(top.get() / inletRunning.get());
    }

    private Figure timeToDouble(Figure inletRunning) {
        if (!inletRunning.isPresent()) {
            return inletRunning;
        }
        if (inletRunning.get() < minInletPsi) {
            return Figure.absent("the inlet pressure is too low to double");
        }
        double twice = 2 * inletRunning.get();
        int index = curve.firstAtOrAbove(twice, Math.max(0, departed));
        if (index < 1) {
            return Figure.absent("twice the inlet pressure was not reached");
        }
        return Figure.of(curve.crossing(index - 1, twice) - zero);
    }
}
