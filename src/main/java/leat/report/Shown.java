package leat.report;

import static java.util.Objects.requireNonNull;

import java.time.ZoneId;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.rule.Finding;
import leat.rule.StartupVerdict;
import leat.rule.Usual;
import leat.signal.Keyword;
import leat.signal.PressureUnit;
import leat.words.CauseWords;
import leat.words.FindingWords;
import leat.words.Language;
import leat.words.Numbers;
import leat.words.Phrases;

/**
 * How numbers and times are shown to people: pressures in the site's unit, times in the site's zone
 * with their offset.
 *
 * @param zone the site's time zone
 * @param unit the site's pressure unit
 * @param language of what can be said in more than one
 */
public record Shown(ZoneId zone, PressureUnit unit, Language language) {

    private static final String NONE = "-";

    public Shown {
        requireNonNull(zone, "zone");
        requireNonNull(unit, "unit");
        requireNonNull(language, "language");
    }

    /** In English. */
    public Shown(ZoneId zone, PressureUnit unit) {
        this(zone, unit, Language.ENGLISH);
    }

    /** The same in another language. */
    public Shown in(Language other) {
        return new Shown(zone, unit, other);
    }

    /** Such as {@code 2026-01-05 07:00:31 +01:00}, as messages have it. */
    public String time(long micros) {
        return numbers().time(micros);
    }

    /** Such as {@code 2026-01-05}. */
    public String day(long micros) {
        return numbers().day(micros);
    }

    /** With its unit. */
    public String pressure(double psi) {
        return numbers().pressure(psi);
    }

    /** With its unit; a dash when absent. */
    public String pressure(Figure psi) {
        return psi.isPresent() ? pressure(psi.get()) : NONE;
    }

    /** A length of time in the unit that suits it, such as {@code 40.0 s} or {@code 3.5 h}. */
    public String span(double seconds) {
        return numbers().span(seconds);
    }

    /** Seconds with two decimals; a dash when absent. */
    public String seconds(Figure seconds) {
        return seconds.isPresent() ? two(seconds.get()) + " s" : NONE;
    }

    /** A plain ratio; a dash when absent. */
    public String ratio(Figure ratio) {
        return ratio.isPresent() ? two(ratio.get()) : NONE;
    }

    /**
     * With its unit and, where it is known, its uncertainty, such as {@code 1.32 ± 0.04 s}; a dash
     * when absent, and of a length of time below nothing, which is none.
     */
    public String figure(Measurand.Unit kind, Figure figure) {
        if (!figure.isPresent() || kind == Measurand.Unit.TIME && figure.get() < 0) {
            return NONE;
        }
        double scale = isPressure(kind) ? unit.fromPsi(1) : 1;
        int decimals = decimals(kind);
        String value = numbers().number(figure.get() * scale, decimals);
        String doubt =
                figure.uncertainty().orElse(0) > 0
                        ? " \u00b1 " + doubt(figure.uncertainty().getAsDouble() * scale, decimals)
                        : "";
        return value + doubt + symbol(kind);
    }

    /** Median and spread with their unit, such as {@code 1.32 ± 0.05 s}. */
    public String usual(Measurand.Unit kind, Usual usual) {
        return figure(kind, Figure.of(usual.median(), usual.spread()));
    }

    /** Rounded up: a small doubt is not none. */
    private String doubt(double value, int decimals) {
        double step = Math.pow(10, -decimals);
        return numbers().number(Math.max(1, Math.ceil(value / step - 1e-9)) * step, decimals);
    }

    private static boolean isPressure(Measurand.Unit kind) {
        return switch (kind) {
            case PRESSURE, PRESSURE_RATE -> true;
            case TIME, RATIO, PERCENT, FREQUENCY -> false;
        };
    }

    private int decimals(Measurand.Unit kind) {
        return switch (kind) {
            case PRESSURE, PRESSURE_RATE -> unit.decimals();
            case TIME, RATIO, FREQUENCY -> 2;
            case PERCENT -> 1;
        };
    }

    private String symbol(Measurand.Unit kind) {
        return switch (kind) {
            case PRESSURE -> " " + unit.symbol();
            case PRESSURE_RATE -> " " + unit.symbol() + "/s";
            case TIME -> " s";
            case RATIO -> "";
            case PERCENT -> " %";
            case FREQUENCY -> " Hz";
        };
    }

    /** The verdict on a start, which is one on its rise alone, in a few plain words. */
    public String verdict(StartupVerdict.Outcome outcome) {
        return say("start-verdict." + Keyword.of(outcome));
    }

    /** What was measured, and what it should be. */
    public String measured(Finding finding) {
        FindingWords words = findings();
        return say("page.measured-should", words.measured(finding), words.limit(finding));
    }

    /** The words for what the rules found. */
    public FindingWords findings() {
        return new FindingWords(Phrases.in(language), numbers());
    }

    /** The words for why a machine is as it is. */
    public CauseWords causes() {
        return new CauseWords(Phrases.in(language), numbers());
    }

    /** A share as a whole percentage, such as {@code 84 %}; never none and never all. */
    public String percent(double share) {
        return number(Math.max(1, Math.min(99, Math.rint(100 * share)))) + " %";
    }

    /** Without decimals. */
    public String number(double whole) {
        return number(whole, 0);
    }

    String number(double value, int decimals) {
        return numbers().number(value, decimals);
    }

    /** A factor, such as {@code 6} or {@code 1.4}. */
    String times(double factor) {
        return numbers().number(factor, factor < 4.95 ? 1 : 0);
    }

    /** A phrase of the language, with its values put in. */
    public String say(String key, Object... values) {
        return phrases().say(key, values);
    }

    /** A plain number with two decimals, such as a ratio. */
    public String two(double value) {
        return number(value, 2);
    }

    /** The phrases of the language. */
    public Phrases phrases() {
        return Phrases.in(language);
    }

    /** The numbers of the site. */
    public Numbers numbers() {
        return new Numbers(language, unit, zone);
    }
}
