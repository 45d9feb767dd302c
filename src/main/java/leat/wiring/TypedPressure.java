package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.config.Plain;
import leat.signal.PressureUnit;

/**
 * A gauge pressure as a person types it, such as {@code 62 psi}.
 *
 * @param value in its unit
 * @param unit as typed
 */
public record TypedPressure(double value, PressureUnit unit) {

    static final String NUMBER = "[-+]?[0-9]{1,6}(?:\\.[0-9]{1,6})?";

    private static final Pattern TYPED = Pattern.compile("(" + NUMBER + ") ?([A-Za-z]+)");

    public TypedPressure {
        requireNonNull(unit, "unit");
    }

    /** Empty for what is none. */
    public static Optional<TypedPressure> read(String words) {
        Matcher typed = TYPED.matcher(words.strip());
        if (!typed.matches()) {
            return Optional.empty();
        }
        double value = Double.parseDouble(typed.group(1));
        return PressureUnit.bySymbol(typed.group(2)).map(unit -> new TypedPressure(value, unit));
    }

    public double psi() {
        return unit.toPsi(value);
    }

    /** As it was typed. */
    @Override
    public String toString() {
        return Plain.number(value) + " " + unit.symbol();
    }
}
