package leat.diagnose;

import leat.measure.Measurand;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Keyword;

/**
 * What a technician should look at first, by what was found. The checks themselves stand among the
 * phrases, in each language, under this key; they are common practice, no published source.
 */
public enum Advice {
    /** The booster is told to run and lifts nothing. */
    NOT_BOOSTING,
    WEAK_BOOST,
    LEVEL_LOW,
    LEVEL_HIGH,
    /** The pressure has not risen after a start: the booster may run dry. */
    NOT_RISEN,
    SLOW_RISE,
    PRESSURE_AT_REST,
    /** The shut-off valve lets water through. */
    VALVE_LEAKS,
    /** Hardly any water comes: the booster may run dry. */
    STARVED,
    WEAK_SUPPLY,
    /** The machine is not as it was. */
    CHANGED,
    /** Its level is above its own. */
    CHANGED_HIGHER,
    /** It starts more slowly than it did. */
    CHANGED_SLOWER,
    /** After a stop the pressure falls otherwise than it did. */
    CHANGED_FALL,
    /** The cartridges take more pressure than clean ones. */
    CLOGGED_FILTERS,
    SILENT,
    BAD_SIGNAL,
    STUCK_SIGNAL,
    /** Sensor and computer do not agree on the time. */
    WRONG_CLOCK,
    /** Two cables or addresses are changed over. */
    SWAPPED_GAUGES;

    /** Such as {@code weak-boost}. */
    public String key() {
        return Keyword.of(this);
    }

    /** The advice for a finding; of one against the baseline by what differs. */
    public static Advice on(Finding finding) {
        Advice general = on(finding.rule(), finding.grade());
        return general == CHANGED
                ? finding.remarks().stream()
                        .findFirst()
                        .flatMap(first -> Measurand.byKey(first.about()))
                        .map(measurand -> changed(measurand, finding.sense()))
                        .orElse(CHANGED)
                : general;
    }

    private static Advice changed(Measurand measurand, Finding.Sense sense) {
        return switch (measurand) {
            case TOP, LOADED, UNLOADED -> sense == Finding.Sense.AT_MOST ? CHANGED_HIGHER : CHANGED;
            case RISE, TIME_TO_LEVEL, BOOST_RATE, DEAD -> CHANGED_SLOWER;
            case FALL -> CHANGED_FALL;
            case FILTER_LOSS -> CLOGGED_FILTERS;
            default -> CHANGED;
        };
    }

    /** The advice for a finding of this rule and grade, whatever it rests on. */
    public static Advice on(Rule rule, Grade grade) {
        return switch (rule) {
            case RATIO -> grade == Grade.CRITICAL ? NOT_BOOSTING : WEAK_BOOST;
            case LEVEL_LOW -> LEVEL_LOW;
            case LEVEL_HIGH -> LEVEL_HIGH;
            case RISE -> grade == Grade.CRITICAL ? NOT_RISEN : SLOW_RISE;
            case REST -> grade == Grade.ADVISORY ? PRESSURE_AT_REST : VALVE_LEAKS;
            case INLET -> grade == Grade.CRITICAL ? STARVED : WEAK_SUPPLY;
            case BASELINE -> CHANGED;
            case FILTER_LOSS -> CLOGGED_FILTERS;
            case SIGNAL_MISSING -> SILENT;
            case SIGNAL_BAD -> BAD_SIGNAL;
            case SIGNAL_STUCK -> STUCK_SIGNAL;
            case SIGNAL_CLOCK -> WRONG_CLOCK;
            case SIGNAL_SWAPPED -> SWAPPED_GAUGES;
        };
    }
}
