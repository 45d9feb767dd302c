package leat.words;

import static leat.words.ServiceStep.*;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Cause;
import leat.signal.Keyword;
import leat.signal.Order;

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
                            journal(cause, machine),
                            numbers.about(GOOD_PSI),
                            numbers.about(ENOUGH_PSI),
                            numbers.about(CauseWords.ALIKE_PSI));
            steps.add(new CauseWords.Step(words, step.isMeasured()));
        }
        return List.copyOf(steps);
    }

    /** The command that tells leat what was done and what was found. */
    private String journal(Cause cause, String machine) {
        String did = done(cause).map(work -> " --did " + work.key()).orElse("");
        String found =
                cause == Cause.UNKNOWN ? phrases.say("step.tell-unknown.cause") : cause.key();
        return "leat journal " + machine + did + " --found " + found;
    }

    /** What these steps do to the machine; empty where nothing is changed that leat goes by. */
    private static Optional<Order.Entry> done(Cause cause) {
        return switch (cause) {
            case WORN_BOOSTER -> Optional.of(Order.Entry.PUMP_REPLACED);
            case NOT_TURNING, COUPLING_SLIPS -> Optional.of(Order.Entry.COUPLING_GAP);
            case STRAINER_CLOGGED -> Optional.of(Order.Entry.STRAINER_CLEANED);
            case FILTERS_CLOGGED -> Optional.of(Order.Entry.FILTER_CHANGED);
            case SET_LOW, SET_HIGH -> Optional.of(Order.Entry.REGULATOR_TURNED);
            case AIR -> Optional.of(Order.Entry.AIR_PURGED);
            case INLET_OFFSET, BOOSTED_OFFSET, STUCK -> Optional.of(Order.Entry.TRANSDUCER_CHANGED);
            case VALVE_PART_OPEN, VALVE_SLOW, VALVE_LEAKS, REGULATOR_STICKING, EXTERNAL_LEAK ->
                    Optional.of(Order.Entry.SERVICED);
            case HEALTHY,
                    WEAK_SUPPLY,
                    SUPPLY_SHUT,
                    OPEN_LOOP,
                    LOOSE_LOOP,
                    SWAPPED,
                    CONFIGURATION,
                    UNKNOWN ->
                    Optional.empty();
        };
    }

    private static List<ServiceStep> steps(Cause cause) {
        return switch (cause) {
            case HEALTHY -> List.of();
            case WORN_BOOSTER ->
                    opened(
                            List.of(JET_OFF, VALVE_POWERED, LISTEN_COUPLING),
                            List.of(
                                    STRAINER_BEHIND,
                                    NOTE_HOSES,
                                    MEASURE_GAP,
                                    PUMP_OFF,
                                    SWAP_FITTINGS,
                                    PUMP_ON,
                                    TURN_BY_HAND,
                                    RECHECK_GAP,
                                    GUARD_ON),
                            READ_LEVEL);
            case NOT_TURNING ->
                    opened(
                            List.of(BREAKER, SHAFT_LOOK),
                            List.of(
                                    MEASURE_GAP,
                                    TURN_BY_HAND,
                                    CHECK_COUPLING,
                                    RECHECK_GAP,
                                    GUARD_ON),
                            READ_LEVEL);
            case COUPLING_SLIPS ->
                    opened(
                            List.of(LISTEN_COUPLING, MARK_COUPLING),
                            List.of(
                                    MEASURE_GAP,
                                    CHECK_COUPLING,
                                    TURN_BY_HAND,
                                    RECHECK_GAP,
                                    GUARD_ON),
                            READ_LEVEL);
            case WEAK_SUPPLY ->
                    outside(
                            INLET_REST,
                            INLET_RUNNING,
                            HAND_VALVE_OPEN,
                            HOUSE_TAP,
                            OTHER_USERS,
                            HOUSE_SUPPLY);
            case SUPPLY_SHUT ->
                    outside(
                            STOP_BOOSTER,
                            HAND_VALVE_OPEN,
                            VALVE_POWERED,
                            INLET_REST,
                            WATER_ON,
                            START_PURGE,
                            READ_INLET,
                            RAN_DRY);
            case STRAINER_CLOGGED ->
                    opened(
                            List.of(
                                    INLET_REST,
                                    INLET_RUNNING,
                                    HAND_VALVE_OPEN,
                                    HOSE_KINK,
                                    HOUSE_TAP),
                            List.of(CLEAN_STRAINER),
                            READ_INLET);
            case VALVE_PART_OPEN ->
                    opened(List.of(VALVE_POWERED, VALVE_COIL), List.of(CLEAN_VALVE), READ_LEVEL);
            case VALVE_SLOW ->
                    opened(List.of(VALVE_TIME, VALVE_COIL), List.of(CLEAN_VALVE), VALVE_TIME);
            case VALVE_LEAKS ->
                    opened(
                            List.of(LINE_UNDER_PRESSURE, HAND_VALVE_SHUT),
                            List.of(CLEAN_VALVE),
                            READ_REST);
            case FILTERS_CLOGGED ->
                    opened(List.of(FILTER_LOSS), List.of(CHANGE_FILTERS), FILTER_LOSS);
            case SET_LOW -> outside(BOOSTED_DIAL, JET_OFF, NOTE_SETTING, RAISE_SETTING, READ_LEVEL);
            case SET_HIGH -> outside(BOOSTED_DIAL, NOTE_SETTING, LOWER_SETTING, READ_LEVEL);
            case REGULATOR_STICKING ->
                    opened(
                            List.of(BOOSTED_DIAL, NOTE_SETTING, QUARTER_TURN),
                            List.of(CLEAN_REGULATOR),
                            READ_LEVEL);
            case AIR -> outside(VENT, NEXT_START, DRAIN_BACK);
            case EXTERNAL_LEAK ->
                    opened(List.of(JET_SIZE, WALK_LINE), List.of(MEND_LEAK), READ_LEVEL);
            case INLET_OFFSET, BOOSTED_OFFSET ->
                    opened(List.of(DIAL_COMPARE, BOTH_ALIKE), List.of(ZERO_TRANSDUCER), BOTH_ALIKE);
            case STUCK ->
                    opened(
                            List.of(DIAL_COMPARE, CONNECTOR),
                            List.of(REPLACE_TRANSDUCER),
                            BOTH_ALIKE);
            case OPEN_LOOP ->
                    rewired(
                            List.of(DIAL_MEANWHILE, CONNECTOR, LOOP_SUPPLY, LOOP_CURRENT),
                            List.of(LOOP_TERMINALS),
                            BOTH_ALIKE);
            case LOOSE_LOOP ->
                    rewired(
                            List.of(DIAL_MEANWHILE, CONNECTOR),
                            List.of(LOOP_TERMINALS),
                            BOTH_ALIKE);
            case SWAPPED -> rewired(List.of(LABELS, SETTINGS), List.of(CHANGE_BACK), REST_READINGS);
            case CONFIGURATION -> outside(DIAL_COMPARE, SETTINGS, CORRECT_SETTINGS, BOTH_ALIKE);
            case UNKNOWN -> List.of(SITE_FIRST, DIAL_COMPARE, JET_OFF, WALK_LINE, TELL_UNKNOWN);
        };
    }

    /** Nothing is opened, nothing is unscrewed. */
    private static List<ServiceStep> outside(ServiceStep... steps) {
        return together(List.of(List.of(SITE_FIRST), List.of(steps), List.of(TELL)));
    }

    /** A line or the coupling is opened for it. */
    private static List<ServiceStep> opened(
            List<ServiceStep> look, List<ServiceStep> work, ServiceStep result) {
        return together(
                List.of(
                        List.of(SITE_FIRST),
                        look,
                        List.of(ISOLATE, RELIEVE),
                        work,
                        List.of(WATER_ON, LOCKS_OFF, START_PURGE, result, TELL)));
    }

    /** Wires are touched, the line stays shut. */
    private static List<ServiceStep> rewired(
            List<ServiceStep> look, List<ServiceStep> work, ServiceStep result) {
        return together(
                List.of(
                        List.of(SITE_FIRST),
                        look,
                        List.of(ISOLATE_LOOP),
                        work,
                        List.of(LOCKS_OFF, result, TELL)));
    }

    private static List<ServiceStep> together(List<List<ServiceStep>> parts) {
        return parts.stream().flatMap(List::stream).toList();
    }
}
