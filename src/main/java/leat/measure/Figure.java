package leat.measure;

import static java.util.Objects.requireNonNull;

import java.util.OptionalDouble;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * One measured number, or the reason why there is none. Never zero or NaN in place of a number that
 * the data do not carry.
 *
 * @param value finite, in the unit that the holder's field name says; empty when absent
 * @param absentBecause plain words; empty text when the value is there
 */
public record Figure(OptionalDouble value, String absentBecause) {

    public Figure {
        requireNonNull(value, "value");
        requireNonNull(absentBecause, "absentBecause");
        if (value.isPresent() != absentBecause.isEmpty()) {
            throw new IllegalArgumentException(
                    "a figure has either a value or a reason for its absence");
        }
        if (value.isPresent() && !Double.isFinite(value.getAsDouble())) {
            throw new IllegalArgumentException("not finite: " + value);
        }
    }

    public static Figure of(double value) {
        return new Figure(OptionalDouble.of(value), "");
    }

    public static Figure absent(String because) {
        return new Figure(OptionalDouble.empty(), because);
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

    public double orElse(double other) {
        return value.orElse(other);
    }

    public void save(StateWriter out) {
        out.putBoolean(isPresent());
        out.putDouble(orElse(0));
        out.putText(absentBecause);
    }

    public static Figure load(StateReader in) {
        boolean present = in.getBoolean();
        double value = in.getDouble();
        String because = in.getText();
        return present ? of(value) : absent(because);
    }
}
