package leat.measure;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One measured number with its uncertainty, or the reason why there is none. Never zero or NaN in
 * place of a number that the data do not carry.
 *
 * @param value finite, in the unit that the holder's field or its {@link Measurand} names; empty
 *     when absent
 * @param uncertainty half the width of the interval that holds the true value in about 95 % of all
 *     cases, in the unit of the value, 0 or more: what sampling, the steps of the converter and
 *     noise leave open, not an error of the transducer itself. Empty when absent or not known
 * @param absence why there is none; empty when the value is there
 */
public record Figure(OptionalDouble value, OptionalDouble uncertainty, Optional<Absence> absence) {

    /** Standard deviations to either side that hold 95 % of a normal distribution. */
    static final double NORMAL_95 = 1.959964;

    public Figure {
        requireNonNull(value, "value");
        requireNonNull(uncertainty, "uncertainty");
        requireNonNull(absence, "absence");
        if (value.isPresent() == absence.isPresent()) {
            throw new IllegalArgumentException(
                    "a figure has either a value or a reason for its absence");
        }
        if (value.isPresent() && !Double.isFinite(value.getAsDouble())) {
            throw new IllegalArgumentException("not finite: " + value);
        }
        if (uncertainty.isPresent()
                && (value.isEmpty()
                        || !(uncertainty.getAsDouble() >= 0)
                        || !Double.isFinite(uncertainty.getAsDouble()))) {
            throw new IllegalArgumentException("no uncertainty of " + value + ": " + uncertainty);
        }
    }

    /** A number whose uncertainty is not known. */
    public static Figure of(double value) {
        return new Figure(OptionalDouble.of(value), OptionalDouble.empty(), Optional.empty());
    }

    /** A number that is true within so much to either side, in about 95 % of all cases. */
    public static Figure of(double value, double uncertainty) {
        return new Figure(
                OptionalDouble.of(value), OptionalDouble.of(uncertainty), Optional.empty());
    }

    public static Figure absent(Absence because) {
        return new Figure(OptionalDouble.empty(), OptionalDouble.empty(), Optional.of(because));
    }

    /** The same, or absent where a level stretch or a gap left no bound to the uncertainty. */
    static Figure bounded(double value, double uncertainty, Absence orAbsentBecause) {
        return Double.isFinite(value) && Double.isFinite(uncertainty)
                ? of(value, uncertainty)
                : absent(orAbsentBecause);
    }

    public boolean isPresent() {
        return value.isPresent();
    }

    /**
     * @throws java.util.NoSuchElementException when absent
     */
    public double get() {
        return value.getAsDouble();
    }

    /**
     * @throws java.util.NoSuchElementException when the value is there
     */
    public Absence absentBecause() {
        return absence.orElseThrow();
    }

    public double orElse(double other) {
        return value.orElse(other);
    }

    /** The uncertainty; 0 where none is known or the number is absent. */
    double doubt() {
        return uncertainty.orElse(0);
    }

    /** One standard deviation of the error, taken as normal. */
    double sd() {
        return doubt() / NORMAL_95;
    }

    /** This less another, absent when either is; their doubts are those of independent numbers. */
    Figure less(Figure other) {
        if (!isPresent() || !other.isPresent()) {
            return isPresent() ? other : this;
        }
        return of(get() - other.get(), Math.hypot(doubt(), other.doubt()));
    }

    /** This divided by another; both must be there. Doubts are added as of independent numbers. */
    Figure over(Figure other) {
        double ratio = get() / other.get();
        if (uncertainty.isEmpty() || other.uncertainty().isEmpty()) {
            return of(ratio);
        }
        double own = uncertainty.getAsDouble() / other.get();
        double others = ratio * other.uncertainty().getAsDouble() / other.get();
        return of(ratio, Math.hypot(own, others));
    }
}
