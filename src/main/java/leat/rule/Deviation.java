package leat.rule;

import java.util.Optional;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;

/**
 * A way in which a start can differ from what is usual for its machine; the gravest and most
 * telling first.
 */
enum Deviation {
    TOP_WARNING(Measurand.TOP, Grade.WARNING, Sense.AT_LEAST, Limit.BASELINE_TOP_WARNING, true),
    TOP_ADVISORY(Measurand.TOP, Grade.ADVISORY, Sense.AT_LEAST, Limit.BASELINE_TOP_ADVISORY, true),
    TIME_TO_LEVEL(
            Measurand.TIME_TO_LEVEL,
            Grade.ADVISORY,
            Sense.AT_MOST,
            Limit.BASELINE_TIME_TO_LEVEL,
            true),
    RISE(Measurand.RISE, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_RISE, true),
    SAG(Measurand.INLET_SAG, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_INLET_SAG, false),
    DROP(Measurand.DROP, Grade.ADVISORY, Sense.AT_MOST, Limit.BASELINE_DROP, false);

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

    Measurand measurand() {
        return measurand;
    }

    Grade grade() {
        return grade;
    }

    Sense sense() {
        return sense;
    }

    Quantity quantity() {
        return measurand.unit() == Measurand.Unit.TIME
                ? Quantity.TIME_SECONDS
                : Quantity.PRESSURE_PSI;
    }

    /**
     * Whether a start differs in this way; empty when it cannot be told. A level says nothing of
     * the booster while the inlet is not as usual.
     */
    Optional<Boolean> isOn(Startup startup, Baseline baseline, Limits limits) {
        Figure figure = startup.figure(measurand);
        Optional<Usual> usual = baseline.usual(measurand);
        if (!figure.isPresent()
                || usual.isEmpty()
                || measurand == Measurand.TOP && !isInletAsUsual(startup, baseline, limits)) {
            return Optional.empty();
        }
        double allowed = allowed(usual.get(), limits);
        return Optional.of(
                sense == Sense.AT_LEAST ? figure.get() < allowed : figure.get() > allowed);
    }

    /** The last value that does not differ. */
    double allowed(Usual usual, Limits limits) {
        double scatter = limits.get(Limit.BASELINE_SPREADS) * usual.spread();
        double given = limits.get(limit);
        double far = isFactor ? given * usual.median() : usual.median() + given;
        return sense == Sense.AT_LEAST
                ? Math.min(far, usual.median() - scatter)
                : Math.max(far, usual.median() + scatter);
    }

    private static boolean isInletAsUsual(Startup startup, Baseline baseline, Limits limits) {
        Figure inlet = startup.inletRunningPsi();
        if (inlet.absence().equals(Optional.of(Absence.NO_INLET_GAUGE))) {
            return true; // nobody can tell; then a lower level is told for itself
        }
        Optional<Usual> usual = baseline.usual(Measurand.INLET_RUNNING);
        return inlet.isPresent()
                && usual.isPresent()
                && Math.abs(inlet.get() - usual.get().median())
                        <= limits.get(Limit.BASELINE_INLET_SAME);
    }

    /** What differs and by how much. */
    Remark remark(Startup startup, Baseline baseline) {
        double value = startup.figure(measurand).get();
        double usual = baseline.usual(measurand).orElseThrow().median();
        if (!isFactor || usual <= 0) {
            return Remark.about(measurand, Remark.Kind.MORE, value, usual, Math.abs(value - usual));
        }
        Remark.Kind kind = value < usual ? Remark.Kind.SHARE_LESS : Remark.Kind.SHARE_MORE;
        return Remark.about(measurand, kind, value, usual, Math.abs(value / usual - 1));
    }
}
