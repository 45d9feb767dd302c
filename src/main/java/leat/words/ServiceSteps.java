package leat.words;

import static leat.words.ServiceStep.*;

import java.util.ArrayList;
import java.util.List;
import leat.diagnose.Cause;
import leat.signal.Keyword;

/**
 * The steps of a careful technician for each cause: what needs no tools first, then isolate, lock
 * out and relieve, then the work, then water before the booster runs. Common practice, no published
 * source; the site's procedure, local codes and qualified people come first. Immutable.
 */
final class ServiceSteps {

    /** Boosted level that is good under strokes, psi; common practice, no source. */
    private static final double GOOD_PSI = 100;

    /** Boosted level above which there is no need to go, psi; common practice, no source. */
    private static final double ENOUGH_PSI = 120;

    private final Phrases phrases;
    private final Numbers numbers;

    ServiceSteps(Phrases phrases, Numbers numbers) {
        this.phrases = phrases;
        this.numbers = numbers;
    }

    List<CauseWords.Step> of(Cause cause, String machine) {
        List<CauseWords.Step> steps = new ArrayList<>();
        for (ServiceStep step : steps(cause)) {
            String words =
                    phrases.say(
                            "step." + Keyword.of(step),
                            machine,
                            entry(cause),
                            cause.key(),
                            numbers.about(GOOD_PSI),
                            numbers.about(ENOUGH_PSI),
                            numbers.about(CauseWords.ALIKE_PSI));
            steps.add(new CauseWords.Step(words, step.isMeasured()));
        }
        return List.copyOf(steps);
    }

    /** The kind of journal entry under which the work is told. */
    private static String entry(Cause cause) {
        return switch (cause) {
            case WORN_BOOSTER -> "pump-replaced";
            case NOT_TURNING, COUPLING_SLIPS -> "coupling-gap";
            case STRAINER_CLOGGED -> "strainer-cleaned";
            case FILTERS_CLOGGED -> "filter-changed";
            case SET_LOW, SET_HIGH, REGULATOR_STICKING -> "regulator-turned";
            case AIR -> "air-purged";
            case INLET_OFFSET, BOOSTED_OFFSET, STUCK -> "transducer-changed";
            case HEALTHY,
                    WEAK_SUPPLY,
                    SUPPLY_SHUT,
                    VALVE_PART_OPEN,
                    VALVE_SLOW,
                    VALVE_LEAKS,
                    EXTERNAL_LEAK,
                    OPEN_LOOP,
                    LOOSE_LOOP,
                    SWAPPED,
                    CONFIGURATION,
                    UNKNOWN ->
                    "note";
        };
    }

    private static List<ServiceStep> steps(Cause cause) {
        return switch (cause) {
            case HEALTHY -> List.of();
            case WORN_BOOSTER ->
                    List.of(
                            SITE_FIRST,
                            JET_OFF,
                            LISTEN_COUPLING,
                            ISOLATE,
                            RELIEVE,
                            NOTE_HOSES,
                            MEASURE_GAP,
                            PUMP_OFF,
                            SWAP_FITTINGS,
                            PUMP_ON,
                            TURN_BY_HAND,
                            RECHECK_GAP,
                            GUARD_ON,
                            WATER_ON,
                            START_PURGE,
                            READ_LEVEL,
                            TELL);
            case NOT_TURNING ->
                    List.of(
                            SITE_FIRST,
                            BREAKER,
                            SHAFT_LOOK,
                            ISOLATE,
                            RELIEVE,
                            TURN_BY_HAND,
                            CHECK_COUPLING,
                            RECHECK_GAP,
                            GUARD_ON,
                            WATER_ON,
                            START_PURGE,
                            READ_LEVEL,
                            TELL);
            case COUPLING_SLIPS ->
                    List.of(
                            SITE_FIRST,
                            LISTEN_COUPLING,
                            ISOLATE,
                            MARK_COUPLING,
                            RELIEVE,
                            CHECK_COUPLING,
                            TURN_BY_HAND,
                            RECHECK_GAP,
                            GUARD_ON,
                            WATER_ON,
                            START_PURGE,
                            READ_LEVEL,
                            TELL);
            case WEAK_SUPPLY ->
                    List.of(
                            SITE_FIRST,
                            INLET_REST,
                            INLET_RUNNING,
                            OTHER_USERS,
                            HAND_VALVE_OPEN,
                            HOUSE_SUPPLY,
                            TELL);
            case SUPPLY_SHUT ->
                    List.of(
                            SITE_FIRST,
                            STOP_BOOSTER,
                            HAND_VALVE_OPEN,
                            VALVE_POWERED,
                            INLET_REST,
                            WATER_ON,
                            START_PURGE,
                            READ_INLET,
                            TELL);
            case STRAINER_CLOGGED ->
                    List.of(
                            SITE_FIRST,
                            INLET_REST,
                            INLET_RUNNING,
                            HAND_VALVE_OPEN,
                            HOSE_KINK,
                            ISOLATE,
                            RELIEVE,
                            CLEAN_STRAINER,
                            WATER_ON,
                            START_PURGE,
                            READ_INLET,
                            TELL);
            case VALVE_PART_OPEN ->
                    List.of(
                            SITE_FIRST,
                            VALVE_POWERED,
                            VALVE_COIL,
                            ISOLATE,
                            RELIEVE,
                            CLEAN_VALVE,
                            WATER_ON,
                            START_PURGE,
                            READ_LEVEL,
                            TELL);
            case VALVE_SLOW ->
                    List.of(
                            SITE_FIRST,
                            VALVE_TIME,
                            VALVE_COIL,
                            ISOLATE,
                            RELIEVE,
                            CLEAN_VALVE,
                            WATER_ON,
                            START_PURGE,
                            VALVE_TIME,
                            TELL);
            case VALVE_LEAKS ->
                    List.of(
                            SITE_FIRST,
                            LINE_UNDER_PRESSURE,
                            HAND_VALVE_SHUT,
                            ISOLATE,
                            RELIEVE,
                            CLEAN_VALVE,
                            WATER_ON,
                            START_PURGE,
                            READ_REST,
                            TELL);
            case FILTERS_CLOGGED ->
                    List.of(
                            SITE_FIRST,
                            FILTER_LOSS,
                            ISOLATE,
                            RELIEVE,
                            CHANGE_FILTERS,
                            WATER_ON,
                            START_PURGE,
                            FILTER_LOSS,
                            TELL);
            case SET_LOW ->
                    List.of(
                            SITE_FIRST,
                            BOOSTED_DIAL,
                            JET_OFF,
                            NOTE_SETTING,
                            RAISE_SETTING,
                            READ_LEVEL,
                            TELL);
            case SET_HIGH ->
                    List.of(
                            SITE_FIRST,
                            BOOSTED_DIAL,
                            NOTE_SETTING,
                            LOWER_SETTING,
                            READ_LEVEL,
                            TELL);
            case REGULATOR_STICKING ->
                    List.of(
                            SITE_FIRST,
                            BOOSTED_DIAL,
                            NOTE_SETTING,
                            QUARTER_TURN,
                            ISOLATE,
                            RELIEVE,
                            CLEAN_REGULATOR,
                            WATER_ON,
                            START_PURGE,
                            READ_LEVEL,
                            TELL);
            case AIR -> List.of(SITE_FIRST, VENT, NEXT_START, DRAIN_BACK, TELL);
            case EXTERNAL_LEAK ->
                    List.of(
                            SITE_FIRST,
                            WALK_LINE,
                            ISOLATE,
                            RELIEVE,
                            MEND_LEAK,
                            WATER_ON,
                            START_PURGE,
                            READ_LEVEL,
                            TELL);
            case INLET_OFFSET, BOOSTED_OFFSET ->
                    List.of(
                            SITE_FIRST,
                            DIAL_COMPARE,
                            BOTH_ALIKE,
                            ISOLATE,
                            RELIEVE,
                            ZERO_TRANSDUCER,
                            WATER_ON,
                            BOTH_ALIKE,
                            TELL);
            case STUCK ->
                    List.of(
                            SITE_FIRST,
                            DIAL_COMPARE,
                            CONNECTOR,
                            ISOLATE,
                            RELIEVE,
                            REPLACE_TRANSDUCER,
                            WATER_ON,
                            BOTH_ALIKE,
                            TELL);
            case OPEN_LOOP ->
                    List.of(
                            SITE_FIRST,
                            DIAL_MEANWHILE,
                            CONNECTOR,
                            LOOP_SUPPLY,
                            LOOP_CURRENT,
                            ISOLATE_LOOP,
                            LOOP_TERMINALS,
                            BOTH_ALIKE,
                            TELL);
            case LOOSE_LOOP ->
                    List.of(
                            SITE_FIRST,
                            DIAL_MEANWHILE,
                            CONNECTOR,
                            ISOLATE_LOOP,
                            LOOP_TERMINALS,
                            BOTH_ALIKE,
                            TELL);
            case SWAPPED ->
                    List.of(
                            SITE_FIRST,
                            LABELS,
                            SETTINGS,
                            ISOLATE_LOOP,
                            CHANGE_BACK,
                            REST_READINGS,
                            TELL);
            case CONFIGURATION ->
                    List.of(SITE_FIRST, DIAL_COMPARE, SETTINGS, CHANGE_BACK, BOTH_ALIKE, TELL);
            case UNKNOWN -> List.of(SITE_FIRST, DIAL_COMPARE, JET_OFF, WALK_LINE, TELL);
        };
    }
}
