package leat.deliver;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Pattern;
import leat.rule.Finding;
import leat.signal.PressureUnit;

/** Numbers and times as people of a site read them. Immutable. */
final class Figures {

    private static final DateTimeFormatter LOCAL =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss xxx", Locale.ROOT);
    private static final Pattern PSI = Pattern.compile("(?<![\\w.-])(-?\\d+(?:\\.\\d+)?) psi\\b");

    private final PressureUnit unit;
    private final ZoneId zone;

    Figures(PressureUnit unit, ZoneId zone) {
        this.unit = unit;
        this.zone = zone;
    }

    /** With its unit; a ratio has none. */
    String show(Finding.Quantity quantity, double value) {
        return switch (quantity) {
            case PRESSURE_PSI -> number(unit.fromPsi(value), unit.decimals()) + " " + unit.symbol();
            case TIME_SECONDS -> number(value, 1) + " s";
            case RATIO -> number(value, 2);
        };
    }

    /** A text whose pressures are in psi, with every one of them in the unit of the site. */
    String inSiteUnit(String textInPsi) {
        if (unit == PressureUnit.PSI) {
            return textInPsi;
        }
        return PSI.matcher(textInPsi)
                .replaceAll(
                        found ->
                                show(
                                        Finding.Quantity.PRESSURE_PSI,
                                        Double.parseDouble(found.group(1))));
    }

    /** Local time with its offset, such as {@code 2026-01-05 07:00:31 +01:00}. */
    String local(long micros) {
        return LOCAL.format(instant(micros).atZone(zone));
    }

    static Instant instant(long micros) {
        return Instant.ofEpochSecond(
                Math.floorDiv(micros, 1_000_000L), Math.floorMod(micros, 1_000_000L) * 1000);
    }

    /** Rounded as shown, and never a zero with a minus sign. */
    private static String number(double value, int decimals) {
        String shown = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return shown.matches("-0(\\.0*)?") ? shown.substring(1) : shown;
    }
}
