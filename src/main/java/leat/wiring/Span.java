package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.config.Plain;
import leat.signal.PressureUnit;

/**
 * What a transducer can measure, as its name plate says: {@code 0..200 psi}.
 *
 * @param low at 4 mA, in the unit
 * @param high at 20 mA, above low
 * @param unit of both
 */
public record Span(double low, double high, PressureUnit unit) {

    /** How far beyond its span a transducer is believed; as for a channel with a scale. */
    private static final double MARGIN = 0.1;

    /** Full vacuum, a little rounded: no gauge pressure is lower. As for a channel's range. */
    private static final double VACUUM_PSI = -15;

    private static final double HIGHEST_PSI = 10_000;

    private static final Pattern TYPED =
            Pattern.compile(
                    "("
                            + TypedPressure.NUMBER
                            + ") ?\\.\\. ?("
                            + TypedPressure.NUMBER
                            + ") ?([A-Za-z]+)");

    public Span {
        requireNonNull(unit, "unit");
        if (!(low < high)) {
            throw new IllegalArgumentException("a span runs upwards: " + low + " to " + high);
        }
    }

    /** Empty for what is none, runs downwards, or is no span of a gauge in a water line. */
    public static Optional<Span> read(String words) {
        Matcher typed = TYPED.matcher(words.strip());
        if (!typed.matches()) {
            return Optional.empty();
        }
        double low = Double.parseDouble(typed.group(1));
        double high = Double.parseDouble(typed.group(2));
        return PressureUnit.bySymbol(typed.group(3))
                .filter(unit -> low < high)
                .filter(unit -> unit.toPsi(low) >= VACUUM_PSI && unit.toPsi(high) < HIGHEST_PSI / 2)
                .map(unit -> new Span(low, high, unit));
    }

    double widthPsi() {
        return unit.toPsi(high - low);
    }

    double lowestPsi() {
        return Math.max(VACUUM_PSI, unit.toPsi(low - MARGIN * (high - low)));
    }

    double highestPsi() {
        return unit.toPsi(high + MARGIN * (high - low));
    }

    /** At a share of the span, 0 to 1. */
    double psiAt(double share) {
        return unit.toPsi(low + share * (high - low));
    }

    /** The pressures that are believed, for {@code range} of a channel. */
    String believed() {
        double margin = MARGIN * (high - low);
        String lowest =
                unit.toPsi(low - margin) > VACUUM_PSI
                        ? in(low - margin)
                        : Plain.number(VACUUM_PSI) + " psi";
        return "[ " + lowest + ", " + in(high + margin) + " ]";
    }

    String in(double value) {
        return Plain.number(value) + " " + unit.symbol();
    }
}
