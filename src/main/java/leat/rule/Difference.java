package leat.rule;

import java.util.Optional;
import java.util.stream.Stream;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.absence.Absence;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;

/**
 * One number beside what is usual of it. Immutable.
 *
 * @param deviation the way in which it may differ
 * @param measurand the number that was compared
 * @param value it, in its unit
 * @param usual what it usually is
 * @param limit the last value that does not differ
 * @param times how many times over the limit it lies, the limit itself once; 0 when it does not
 *     differ
 */
record Difference(
        Deviation deviation,
        Measurand measurand,
        double value,
        double usual,
        double limit,
        int times) {

    /** More are not told apart. */
    private static final int MOST_TIMES = 100;

    /** Empty when it cannot be told whether it differs. */
    static Optional<Difference> of(
            Deviation deviation, Seen seen, Baseline baseline, Limits limits) {
        Measurand measurand = deviation.compares(seen, baseline);
        Optional<Double> granted = granted(deviation, seen, baseline, limits);
        Optional<Usual> usual = usual(deviation, measurand, seen, baseline);
        Figure figure = seen.figure(measurand);
        if (!figure.isPresent() || granted.isEmpty() || usual.isEmpty()) {
            return Optional.empty();
        }
        return of(deviation, measurand, figure, usual.get(), granted.get(), limits);
    }

    private static Optional<Difference> of(
            Deviation deviation,
            Measurand measurand,
            Figure figure,
            Usual usual,
            double granted,
            Limits limits) {
        double side = deviation.sense() == Sense.AT_LEAST ? -1 : 1;
        double value = figure.get() - side * granted;
        double beyond = side * (value - usual.median());
        double doubt = figure.uncertainty().orElse(0);
        int times = deviation.times(value, usual, 1, limits);
        if (times == 1 && doubt >= beyond) {
            return Optional.empty();
        }
        if (times == 1) {
            times = Math.max(1, deviation.times(value - side * doubt, usual, MOST_TIMES, limits));
        }
        double limit = deviation.allowed(usual, 1, limits) + side * granted;
        return Optional.of(
                new Difference(deviation, measurand, figure.get(), usual.median(), limit, times));
    }

    /**
     * Of a level whose kind is not known the lowest of its own that a low one could be, and the
     * highest that a high one could be.
     */
    private static Optional<Usual> usual(
            Deviation deviation, Measurand measurand, Seen seen, Baseline baseline) {
        if (measurand == Measurand.UNREST) {
            return baseline.usual(seen.of(), measurand)
                    .or(() -> baseline.usual(seen.of(), Measurand.WANDER));
        }
        if (measurand != Measurand.TOP) {
            return baseline.usual(seen.of(), measurand);
        }
        double side = deviation.sense() == Sense.AT_LEAST ? 1 : -1;
        return Stream.of(Measurand.LOADED, Measurand.UNLOADED, Measurand.TOP)
                .flatMap(level -> baseline.usual(seen.of(), level).stream())
                .min((a, b) -> Double.compare(side * a.median(), side * b.median()));
    }

    /**
     * By how much a level may differ because the inlet does: a booster adds to what it is given,
     * unless its regulator goes by the gauge. A level whose inlet is not seen may wander by twice
     * as much, for turning the jet off and on moves it. Empty where the inlet differs by too much,
     * or is not known though it usually is.
     */
    private static Optional<Double> granted(
            Deviation deviation, Seen seen, Baseline baseline, Limits limits) {
        if (deviation.compares(seen, baseline) == Measurand.WANDER) {
            return Optional.of(limits.get(Limit.BASELINE_WANDER));
        }
        Optional<Usual> usual = baseline.usual(seen.of(), Measurand.INLET_RUNNING);
        if (!deviation.isOfLevel() || usual.isEmpty()) {
            return Optional.of(0.0);
        }
        Figure inlet = seen.figure(Measurand.INLET_RUNNING);
        if (!inlet.isPresent()) {
            boolean isWithout = inlet.absentBecause() == Absence.NO_INLET_GAUGE;
            return isWithout ? Optional.of(0.0) : Optional.empty();
        }
        double more = inlet.get() - usual.get().median();
        double granted = Math.max(0, deviation.sense() == Sense.AT_LEAST ? -more : more);
        return Optional.of(granted).filter(psi -> psi <= limits.get(Limit.BASELINE_INLET_SAME));
    }

    boolean isOn() {
        return times > 0;
    }

    /** So many occasions running must differ where one that just differs takes so many. */
    long needed(long startsRunning) {
        int most = measurand == Measurand.WANDER ? 1 : deviation.mostTimes();
        int counts = Math.min(times, most);
        return (startsRunning + counts - 1) / counts;
    }

    Quantity quantity() {
        return switch (measurand.unit()) {
            case TIME -> Quantity.TIME_SECONDS;
            case PRESSURE_RATE -> Quantity.PRESSURE_PSI_PER_SECOND;
            case PRESSURE -> Quantity.PRESSURE_PSI;
            case RATIO, PERCENT, FREQUENCY -> Quantity.RATIO;
        };
    }

    /** What differs and by how much. */
    Remark remark() {
        double difference = Math.abs(value - usual);
        if (!deviation.isFactor() || usual <= 0) {
            return Remark.about(measurand, Remark.Kind.MORE, value, usual, difference);
        }
        Remark.Kind kind = value < usual ? Remark.Kind.SHARE_LESS : Remark.Kind.SHARE_MORE;
        return Remark.about(measurand, kind, value, usual, difference / usual);
    }
}
