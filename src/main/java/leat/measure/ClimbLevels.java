package leat.measure;

import leat.measure.absence.Absence;

/**
 * The levels between which a start climbs. Immutable.
 *
 * @param curve boosted pressure, seconds from the start that was told
 * @param noise of its readings
 * @param foot where it left its base
 * @param zero the start as the pressure shows it
 * @param states the state levels of the record
 */
record ClimbLevels(Stretch curve, Noise noise, Foot foot, double zero, StateLevels states) {

    static final double BASE_SECONDS = 5;

    /** A base whose last second differs by more from the seconds before is moving. */
    private static final double MOVING_PSI = 2;

    private static final double LAST_SECONDS = 1;
    private static final double MOVING_BASE_SECONDS = 0.5;
    private static final double AROUND_LOWEST_SECONDS = 0.1;

    static final double JUST_BEFORE = 1e-6;

    /**
     * @param lastSecond of the record whose states are sought: the end, or the start where no level
     *     was reached
     */
    static ClimbLevels of(Stretch curve, Noise noise, Foot foot, double zero, double lastSecond) {
        StateLevels states = StateLevels.of(curve.part(zero - BASE_SECONDS, lastSecond), noise);
        return new ClimbLevels(curve, noise, foot, zero, states);
    }

    /** Of a pressure that moved before the start, its lowest point or the last moment. */
    Figure base() {
        double before = zero - JUST_BEFORE;
        Figure early =
                curve.median(
                        zero - BASE_SECONDS, zero - LAST_SECONDS, Absence.NOTHING_BEFORE_START);
        Figure late = curve.median(zero - LAST_SECONDS, before, Absence.NOTHING_BEFORE_START);
        double fallen =
                early.isPresent() && late.isPresent()
                        ? early.get() - late.get()
                        : fallenAfterRestart(late);
        if (fallen > MOVING_PSI) {
            double around = curve.second(foot.lowest());
            return moving(around - AROUND_LOWEST_SECONDS, around + AROUND_LOWEST_SECONDS);
        }
        if (fallen < -MOVING_PSI) {
            return moving(zero - MOVING_BASE_SECONDS, before);
        }
        Figure low = states.base();
        boolean isBefore = early.isPresent() || late.isPresent();
        return low.isPresent() && isBefore
                ? low
                : median(curve, zero - BASE_SECONDS, before, noise, Absence.NOTHING_BEFORE_START);
    }

    /** Nothing is known of more than the last second: the booster came back from a stop in it. */
    private double fallenAfterRestart(Figure late) {
        return late.isPresent() && foot.lowest() >= 0 ? late.get() - curve.psi(foot.lowest()) : 0;
    }

    /** A base that moved is not known better than by what makes it a moving one. */
    private Figure moving(double fromSecond, double toSecond) {
        Figure level = median(curve, fromSecond, toSecond, noise, Absence.NOTHING_BEFORE_START);
        return level.isPresent()
                ? Figure.of(level.get(), Math.max(MOVING_PSI, level.doubt()))
                : level;
    }

    /**
     * The level that the climb reached: before the strokes, or under them where they began in the
     * climb, or that of the last seconds where it is not known which of the two it is.
     */
    Figure top() {
        if (states.unloaded().isPresent()) {
            return states.unloaded();
        }
        return states.loaded().isPresent() ? states.loaded() : states.last();
    }

    /** Which of them the top is. */
    ClimbRemark.Kind topKind() {
        if (states.unloaded().isPresent()) {
            return ClimbRemark.Kind.TOP_UNLOADED;
        }
        return states.loaded().isPresent()
                ? ClimbRemark.Kind.TOP_LOADED
                : ClimbRemark.Kind.TOP_UNSURE;
    }

    /** Median of the pressures from second to second with its doubt. */
    static Figure median(
            Stretch curve, double fromSecond, double toSecond, Noise noise, Absence absentBecause) {
        double[] psi = curve.part(fromSecond, toSecond).pressures();
        return psi.length == 0 ? Figure.absent(absentBecause) : Level.ofShort(psi, noise);
    }
}
