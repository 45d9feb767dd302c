package leat.alarm;

import static leat.alarm.AlarmEvent.ACKNOWLEDGED;
import static leat.alarm.AlarmEvent.EASED;
import static leat.alarm.AlarmEvent.RAISED;
import static leat.alarm.AlarmEvent.RETURNED;
import static leat.alarm.AlarmEvent.WORSENED;
import static leat.alarm.AlarmState.NORMAL;
import static leat.alarm.AlarmState.RETURNED_UNACKNOWLEDGED;
import static leat.alarm.AlarmState.UNACKNOWLEDGED;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/**
 * Every legal transition, as data. After the state table of ANSI/ISA-18.2-2016 and IEC 62682; the
 * two events of a changing grade are leat's own: an alarm that worsens is annunciated again.
 */
public final class Transitions {

    private static final Map<AlarmState, Map<AlarmEvent, AlarmState>> TABLE = table();

    private Transitions() {}

    private static Map<AlarmState, Map<AlarmEvent, AlarmState>> table() {
        Map<AlarmState, Map<AlarmEvent, AlarmState>> table = new EnumMap<>(AlarmState.class);
        table.put(NORMAL, Map.of(RAISED, UNACKNOWLEDGED));
        table.put(
                UNACKNOWLEDGED,
                Map.of(
                        RETURNED, RETURNED_UNACKNOWLEDGED,
                        ACKNOWLEDGED, AlarmState.ACKNOWLEDGED,
                        WORSENED, UNACKNOWLEDGED,
                        EASED, UNACKNOWLEDGED));
        table.put(
                AlarmState.ACKNOWLEDGED,
                Map.of(
                        RETURNED, NORMAL,
                        WORSENED, UNACKNOWLEDGED,
                        EASED, AlarmState.ACKNOWLEDGED));
        table.put(RETURNED_UNACKNOWLEDGED, Map.of(RAISED, UNACKNOWLEDGED, ACKNOWLEDGED, NORMAL));
        return table;
    }

    /** The state that an event leads to; empty when the event is not legal in that state. */
    public static Optional<AlarmState> after(AlarmState state, AlarmEvent event) {
        return Optional.ofNullable(TABLE.get(state).get(event));
    }
}
