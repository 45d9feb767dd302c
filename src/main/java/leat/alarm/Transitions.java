package leat.alarm;

import static leat.alarm.AlarmEvent.CHATTERING;
import static leat.alarm.AlarmEvent.EASED;
import static leat.alarm.AlarmEvent.LATCHED;
import static leat.alarm.AlarmEvent.RAISED;
import static leat.alarm.AlarmEvent.RELEASED;
import static leat.alarm.AlarmEvent.REMOVED;
import static leat.alarm.AlarmEvent.REPEATED;
import static leat.alarm.AlarmEvent.RESET;
import static leat.alarm.AlarmEvent.RESTORED;
import static leat.alarm.AlarmEvent.RETURNED;
import static leat.alarm.AlarmEvent.SETTLED;
import static leat.alarm.AlarmEvent.UNSHELVED;
import static leat.alarm.AlarmEvent.WORSENED;
import static leat.alarm.AlarmState.ACKNOWLEDGED;
import static leat.alarm.AlarmState.LATCHED_ACKNOWLEDGED;
import static leat.alarm.AlarmState.LATCHED_UNACKNOWLEDGED;
import static leat.alarm.AlarmState.NORMAL;
import static leat.alarm.AlarmState.RETURNED_UNACKNOWLEDGED;
import static leat.alarm.AlarmState.UNACKNOWLEDGED;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/**
 * Every legal transition, as data. After the state table of ANSI/ISA-18.2-2016 and IEC 62682; what
 * they leave open is decided in decision 0015. The events of a changing grade and of chattering are
 * leat's own: an alarm that worsens is annunciated again, one that repeats is not.
 */
public final class Transitions {

    /** While nothing holds the alarm back. */
    private static final Map<AlarmState, Map<AlarmEvent, AlarmState>> FREE =
            new EnumMap<>(
                    Map.of(
                            NORMAL,
                            Map.of(RAISED, UNACKNOWLEDGED, CHATTERING, UNACKNOWLEDGED),
                            UNACKNOWLEDGED,
                            Map.of(
                                    RETURNED,
                                    RETURNED_UNACKNOWLEDGED,
                                    LATCHED,
                                    LATCHED_UNACKNOWLEDGED,
                                    AlarmEvent.ACKNOWLEDGED,
                                    ACKNOWLEDGED,
                                    WORSENED,
                                    UNACKNOWLEDGED,
                                    EASED,
                                    UNACKNOWLEDGED,
                                    CHATTERING,
                                    UNACKNOWLEDGED,
                                    REPEATED,
                                    UNACKNOWLEDGED,
                                    SETTLED,
                                    UNACKNOWLEDGED),
                            ACKNOWLEDGED,
                            Map.of(
                                    RETURNED, NORMAL,
                                    LATCHED, LATCHED_ACKNOWLEDGED,
                                    WORSENED, UNACKNOWLEDGED,
                                    EASED, ACKNOWLEDGED,
                                    CHATTERING, UNACKNOWLEDGED,
                                    REPEATED, ACKNOWLEDGED,
                                    SETTLED, ACKNOWLEDGED),
                            RETURNED_UNACKNOWLEDGED,
                            Map.of(
                                    RAISED,
                                    UNACKNOWLEDGED,
                                    CHATTERING,
                                    UNACKNOWLEDGED,
                                    AlarmEvent.ACKNOWLEDGED,
                                    NORMAL),
                            LATCHED_UNACKNOWLEDGED,
                            Map.of(
                                    RAISED,
                                    UNACKNOWLEDGED,
                                    CHATTERING,
                                    UNACKNOWLEDGED,
                                    AlarmEvent.ACKNOWLEDGED,
                                    LATCHED_ACKNOWLEDGED),
                            LATCHED_ACKNOWLEDGED,
                            Map.of(
                                    RAISED, UNACKNOWLEDGED,
                                    CHATTERING, UNACKNOWLEDGED,
                                    RESET, NORMAL)));

    /**
     * Under a hold leat records how the condition comes and goes, and calls nobody. An alarm that
     * is raised under a hold counts as acknowledged until the hold ends. An alarm that waited for
     * an acknowledgement before the hold goes on waiting.
     */
    private static final Map<AlarmState, Map<AlarmEvent, AlarmState>> HELD =
            new EnumMap<>(
                    Map.of(
                            NORMAL,
                            Map.of(RAISED, ACKNOWLEDGED, CHATTERING, ACKNOWLEDGED),
                            UNACKNOWLEDGED,
                            Map.of(
                                    RETURNED, RETURNED_UNACKNOWLEDGED,
                                    LATCHED, LATCHED_UNACKNOWLEDGED,
                                    WORSENED, UNACKNOWLEDGED,
                                    EASED, UNACKNOWLEDGED,
                                    CHATTERING, UNACKNOWLEDGED,
                                    REPEATED, UNACKNOWLEDGED,
                                    SETTLED, UNACKNOWLEDGED),
                            ACKNOWLEDGED,
                            Map.of(
                                    RETURNED, NORMAL,
                                    LATCHED, LATCHED_ACKNOWLEDGED,
                                    WORSENED, ACKNOWLEDGED,
                                    EASED, ACKNOWLEDGED,
                                    CHATTERING, ACKNOWLEDGED,
                                    REPEATED, ACKNOWLEDGED,
                                    SETTLED, ACKNOWLEDGED),
                            RETURNED_UNACKNOWLEDGED,
                            Map.of(RAISED, UNACKNOWLEDGED, CHATTERING, UNACKNOWLEDGED),
                            LATCHED_UNACKNOWLEDGED,
                            Map.of(RAISED, UNACKNOWLEDGED, CHATTERING, UNACKNOWLEDGED),
                            LATCHED_ACKNOWLEDGED,
                            Map.of(RAISED, ACKNOWLEDGED, CHATTERING, ACKNOWLEDGED)));

    /** The last hold ends: an active alarm calls again, even if it was acknowledged before. */
    private static final Map<AlarmState, AlarmState> FREED =
            new EnumMap<>(
                    Map.of(
                            NORMAL, NORMAL,
                            UNACKNOWLEDGED, UNACKNOWLEDGED,
                            ACKNOWLEDGED, UNACKNOWLEDGED,
                            RETURNED_UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED,
                            LATCHED_UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED,
                            LATCHED_ACKNOWLEDGED, LATCHED_ACKNOWLEDGED));

    /** Events that begin a hold. They are always legal; a hold that is on already is renewed. */
    private static final Map<AlarmEvent, Hold> BEGINS =
            new EnumMap<>(
                    Map.of(
                            AlarmEvent.SHELVED,
                            Hold.SHELVED,
                            AlarmEvent.SUPPRESSED,
                            Hold.SUPPRESSED,
                            REMOVED,
                            Hold.OUT_OF_SERVICE));

    /** Events that end a hold. Each is legal only while its hold is on. */
    private static final Map<AlarmEvent, Hold> ENDS =
            new EnumMap<>(
                    Map.of(
                            UNSHELVED, Hold.SHELVED,
                            RELEASED, Hold.SUPPRESSED,
                            RESTORED, Hold.OUT_OF_SERVICE));

    private Transitions() {}

    /**
     * Where an event leads an alarm that nothing holds back; empty when it is not legal there.
     *
     * @param state one of its own, from NORMAL to LATCHED_ACKNOWLEDGED
     */
    public static Optional<AlarmState> after(AlarmState state, AlarmEvent event) {
        return after(Life.NORMAL.to(state), event).map(Life::shown);
    }

    /** Where an event leads; empty when it is not legal there. */
    static Optional<Life> after(Life life, AlarmEvent event) {
        Hold begins = BEGINS.get(event);
        if (begins != null) {
            return Optional.of(life.with(begins));
        }
        Hold ends = ENDS.get(event);
        if (ends != null) {
            return life.has(ends) ? Optional.of(freed(life.without(ends))) : Optional.empty();
        }
        Map<AlarmEvent, AlarmState> row = (life.isHeld() ? HELD : FREE).get(life.own());
        return Optional.ofNullable(row.get(event)).map(life::to);
    }

    private static Life freed(Life life) {
        return life.isHeld() ? life : life.to(FREED.get(life.own()));
    }
}
