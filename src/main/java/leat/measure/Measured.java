package leat.measure;

import static java.util.Objects.requireNonNull;

import java.util.OptionalDouble;

/**
 * One measured number with the uncertainty that the data leave it, or the reason why there is none.
 * Immutable.
 *
 * @param value finite, in the unit that the holder's name says; empty when absent
 * @param uncertainty95 half width of the interval that holds the true value in 95 of 100 cases, in
 *     the unit of the value; 0 when absent
 * @param absentBecause plain words; empty text when the value is there
 */
record Measured(OptionalDouble value, double uncertainty95, String absentBecause) {

    /** Standard deviations to either side that hold 95 % of a normal distribution. */
    static final double NORMAL_95 = 1.959964;

    Measured {
        requireNonNull(value, "value");
        requireNonNull(absentBecause, "absentBecause");
        if (value.isPresent() != absentBecause.isEmpty()) {
            throw new IllegalArgumentException("either a value or a reason for its absence");
        }
        if (!Double.isFinite(value.orElse(0)) || !(uncertainty95 >= 0)) {
            throw new IllegalArgumentException(value + ", uncertainty " + uncertainty95);
        }
        if (!Double.isFinite(uncertainty95)) {
            throw new IllegalArgumentException("uncertainty not finite: " + uncertainty95);
        }
    }

    static Measured of(double value, double uncertainty95) {
        return new Measured(OptionalDouble.of(value), uncertainty95, "");
    }

    /** The same, or absent where a level stretch or a gap left no bound to the uncertainty. */
    static Measured bounded(double value, double uncertainty95, String orAbsentBecause) {
        return Double.isFinite(value) && Double.isFinite(uncertainty95)
                ? of(value, uncertainty95)
                : absent(orAbsentBecause);
    }

    static Measured absent(String because) {
        return new Measured(OptionalDouble.empty(), 0, because);
    }

    /** The same; where no uncertainty is known it is taken for none. */
    static Measured of(Figure figure) {
        return figure.isPresent()
                ? of(figure.get(), figure.uncertainty().orElse(0))
                : absent(figure.absentBecause());
    }

    Figure figure() {
        return isPresent() ? Figure.of(get(), uncertainty95) : Figure.absent(absentBecause);
    }

    /** This less another; their doubts are those of independent numbers. */
    Measured less(Measured other) {
        if (!isPresent() || !other.isPresent()) {
            return absent(isPresent() ? other.absentBecause : absentBecause);
        }
        return of(get() - other.get(), Math.hypot(uncertainty95, other.uncertainty95));
    }

    boolean isPresent() {
        return value.isPresent();
    }

    /** The value; {@link java.util.NoSuchElementException} when absent. */
    double get() {
        return value.getAsDouble();
    }

    /** One standard deviation of the error, taken as normal. */
    double sd() {
        return uncertainty95 / NORMAL_95;
    }
}
