package leat.rule;

import leat.measure.Measurand;
import leat.rule.Finding.Sense;

/**
 * A way in which a start, a run or a stop can differ from what is usual for its machine; the
 * gravest and most telling first.
 */
enum Deviation {
    LOADED_WARNING(
            Measurand.LOADED, Grade.WARNING, Sense.AT_LEAST, Limit.BASELINE_TOP_WARNING, true),
    UNLOADED_WARNING(
            Measurand.UNLOADED, Grade.WARNING, Sense.AT_LEAST, Limit.BASELINE_TOP_WARNING, true),
    LOADED_ADVISORY(
            Measurand.LOADED, Grade.ADVISORY, Sense.AT_LEAST, Limit.BASELINE_TOP_ADVISORY, true),
    UNLOADED_ADVISORY(
            Measurand.UNLOADED, Grade.ADVISORY, Sense.AT_LEAST, Limit.BASELINE_TOP_ADVISORY, true),
    LOADED_HIGH(Measurand.LOADED, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_TOP_HIGH, true),
    UNLOADED_HIGH(Measurand.UNLOADED, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_TOP_HIGH, true),
    FILTERS(
            Measurand.FILTER_LOSS,
            Grade.ADVISORY,
            Sense.AT_MOST,
            Limit.BASELINE_FILTER_LOSS,
            false),
    TIME_TO_LEVEL(
            Measurand.TIME_TO_LEVEL,
            Grade.ADVISORY,
            Sense.AT_MOST,
            Limit.BASELINE_TIME_TO_LEVEL,
            true),
    RISE(Measurand.RISE, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_RISE, true),
    BOOST_RATE(
            Measurand.BOOST_RATE, Grade.ADVISORY, Sense.AT_LEAST, Limit.BASELINE_BOOST_RATE, true),
    DEAD(Measurand.DEAD, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_DEAD_TIME, false),
    SAG(Measurand.INLET_SAG, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_INLET_SAG, false),
    DROP(Measurand.DROP, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_DROP, false),
    WANDER(Measurand.UNREST, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_WANDER, false),
    FALL_QUICK(Measurand.FALL, Grade.ADVISORY, Sense.AT_LEAST, Limit.BASELINE_FALL_QUICK, true),
    FALL_SLOW(Measurand.FALL, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_FALL_SLOW, true);

    private final Measurand measurand;
    private final Grade grade;
    private final Sense sense;
    private final Limit limit;
    private final boolean isFactor;

    /**
     * @param isFactor whether {@code limit} is a factor of what is usual; else it is added to it
     */
    Deviation(Measurand measurand, Grade grade, Sense sense, Limit limit, boolean isFactor) {
        this.measurand = measurand;
        this.grade = grade;
        this.sense = sense;
        this.limit = limit;
        this.isFactor = isFactor;
    }

    Grade grade() {
        return grade;
    }

    Sense sense() {
        return sense;
    }

    boolean isFactor() {
        return isFactor;
    }

    boolean isOfLevel() {
        return measurand == Measurand.LOADED || measurand == Measurand.UNLOADED;
    }

    /** Whether both say the same, one of them more gravely. */
    boolean isSameAs(Deviation other) {
        return measurand == other.measurand && sense == other.sense;
    }

    /**
     * The number that is looked at: of a level that was not seen, or that the baseline does not
     * know, the top, whichever of the two it may be. A top below the level under load is low, and
     * one above the level without it is high. Where those are not known it is not compared if it
     * may lie on that side by nature. Without an inlet gauge the whole wander is looked at.
     */
    Measurand compares(Seen seen, Baseline baseline) {
        if (this == WANDER && !seen.hasInletGauge()) {
            return Measurand.WANDER;
        }
        Measurand outer = sense == Sense.AT_LEAST ? Measurand.LOADED : Measurand.UNLOADED;
        boolean isTop =
                measurand == Measurand.LOADED
                        && !isKnown(Measurand.LOADED, seen, baseline)
                        && (baseline.usual(seen.of(), outer).isPresent()
                                || !seen.has(outer)
                                        && !isKnown(Measurand.UNLOADED, seen, baseline));
        return isTop ? Measurand.TOP : measurand;
    }

    private static boolean isKnown(Measurand level, Seen seen, Baseline baseline) {
        return seen.has(level) && baseline.usual(seen.of(), level).isPresent();
    }

    /**
     * How many times over the limit a value lies, at most so many; 0 when it does not differ. A
     * factor is applied anew each time: a rise limited to 1.8 times lies twice over at 3.24.
     */
    int times(double value, Usual usual, int most, Limits limits) {
        int times = 0;
        while (times < most && isBeyond(value, allowed(usual, times + 1, limits))) {
            times++;
        }
        return times;
    }

    private boolean isBeyond(double value, double allowed) {
        return sense == Sense.AT_LEAST ? value < allowed : value > allowed;
    }

    /** The last value that does not lie so many times over the limit. */
    double allowed(Usual usual, int times, Limits limits) {
        double scatter = times * limits.get(Limit.BASELINE_SPREADS) * usual.spread();
        double given = limits.get(limit);
        double far =
                isFactor ? Math.pow(given, times) * usual.median() : usual.median() + times * given;
        return sense == Sense.AT_LEAST
                ? Math.min(far, usual.median() - scatter)
                : Math.max(far, usual.median() + scatter);
    }

    /**
     * A level, a loss or a wander far off speaks at once. What air, or others who draw water, can
     * move for one start never does.
     */
    int mostTimes() {
        return isOfLevel() || this == FILTERS || this == WANDER ? Integer.MAX_VALUE : 2;
    }
}
