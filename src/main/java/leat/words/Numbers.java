package leat.words;

import static java.util.Objects.requireNonNull;

import java.text.DecimalFormatSymbols;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import leat.measure.Measurand;
import leat.signal.PressureUnit;

/**
 * Numbers and times as people of a site read them. Immutable.
 *
 * @param language decides how a decimal is marked
 * @param unit in which pressures are shown
 * @param zone in which times are shown
 */
public record Numbers(Language language, PressureUnit unit, ZoneId zone) {

    private static final DateTimeFormatter LOCAL =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss xxx", Locale.ROOT);

    public Numbers {
        requireNonNull(language, "language");
        requireNonNull(unit, "unit");
        requireNonNull(zone, "zone");
    }

    /** With its unit. */
    public String pressure(double psi) {
        return number(unit.fromPsi(psi), unit.decimals()) + " " + unit.symbol();
    }

    /** A round pressure of common practice, with its unit, such as {@code 100 psi} or 6.9 bar. */
    public String about(double psi) {
        int decimals = Math.max(0, unit.decimals() - 1);
        return number(unit.fromPsi(psi), decimals) + " " + unit.symbol();
    }

    /** A number of a start, a run or a stop, with the unit of its kind. */
    public String figure(Measurand.Unit kind, double value) {
        return switch (kind) {
            case PRESSURE -> pressure(value);
            case PRESSURE_RATE -> slope(value);
            case TIME -> seconds(value, 2);
            case RATIO -> number(value, 2);
            case PERCENT -> number(value, 0) + " %";
            case FREQUENCY -> number(value, 2) + " Hz";
        };
    }

    /** Pressure gained a second, with its unit. */
    public String slope(double psiPerSecond) {
        return pressure(psiPerSecond) + "/s";
    }

    /** With its unit. */
    public String seconds(double seconds, int decimals) {
        return number(seconds, decimals) + " s";
    }

    /** A time that may be long, with the largest unit of which it holds two. */
    public String span(double seconds) {
        if (seconds < 120) {
            return seconds(seconds, 1);
        }
        if (seconds < 2 * 3_600) {
            return number(seconds / 60, 0) + " min";
        }
        return seconds < 2 * 86_400
                ? number(seconds / 3_600, 1) + " h"
                : number(seconds / 86_400, 0) + " d";
    }

    /** Rounded as shown, and never a zero with a minus sign. */
    public String number(double value, int decimals) {
        return number(language, value, decimals);
    }

    /** Rounded as shown, and never a zero with a minus sign. */
    public static String number(Language language, double value, int decimals) {
        String shown = String.format(language.locale(), "%." + decimals + "f", value);
        return shown.matches("-0([.,]0*)?") ? shown.substring(1) : shown;
    }

    static char decimalPoint(Language language) {
        return DecimalFormatSymbols.getInstance(language.locale()).getDecimalSeparator();
    }

    /** Local time with its offset, such as {@code 2026-01-05 07:00:31 +01:00}. */
    public String time(long micros) {
        return LOCAL.format(at(micros));
    }

    /** Local date, such as {@code 2026-01-05}. */
    public String day(long micros) {
        return at(micros).toLocalDate().toString();
    }

    private ZonedDateTime at(long micros) {
        return Instant.EPOCH.plus(micros, ChronoUnit.MICROS).atZone(zone);
    }
}
