package leat.rule;

import leat.measure.Figure;
import leat.rule.Finding.Sense;

/**
 * One graded limit of a rule, with its clear level and its delays.
 *
 * @param grade how grave it is to break it
 * @param limit what must not be undercut or exceeded
 * @param clear beyond this the value is good again
 * @param sense on which side good values lie
 * @param latch its delays
 */
record GradedLimit(Grade grade, double limit, double clear, Sense sense, Latch latch) {

    static GradedLimit atLeast(
            Grade grade, double limit, double clear, long onMicros, long offMicros) {
        return new GradedLimit(grade, limit, clear, Sense.AT_LEAST, new Latch(onMicros, offMicros));
    }

    static GradedLimit atMost(
            Grade grade, double limit, double clear, long onMicros, long offMicros) {
        return new GradedLimit(grade, limit, clear, Sense.AT_MOST, new Latch(onMicros, offMicros));
    }

    boolean isBroken(double value) {
        return sense == Sense.AT_LEAST ? value < limit : value > limit;
    }

    boolean isCleared(double value) {
        return sense == Sense.AT_LEAST ? value > clear : value < clear;
    }

    /** Beyond the limit, wherever in its uncertainty the value may lie. */
    boolean isSurelyBroken(Figure value) {
        double doubt = value.uncertainty().orElse(0);
        return isBroken(sense == Sense.AT_LEAST ? value.get() + doubt : value.get() - doubt);
    }

    /** Good again, wherever in its uncertainty the value may lie. */
    boolean isSurelyCleared(Figure value) {
        double doubt = value.uncertainty().orElse(0);
        return isCleared(sense == Sense.AT_LEAST ? value.get() - doubt : value.get() + doubt);
    }
}
