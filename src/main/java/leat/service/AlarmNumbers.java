package leat.service;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.store.StoreReader;

/**
 * The numbers by which people call alarms, as in {@code leat ack 3}. One is given when an alarm is
 * first heard of, before it is stored, so that its first message can say it; none is given twice.
 * Thread-confined.
 */
final class AlarmNumbers {

    /** An alarm that has gone may come again under its id for a while. */
    private static final int MOST_GONE = 1_000;

    private final Map<String, Long> standing = new HashMap<>();
    private final Map<String, Long> gone = new LinkedHashMap<>();
    private long last;

    private AlarmNumbers(long last) {
        this.last = last;
    }

    /** Goes on from what the store holds. */
    static AlarmNumbers takenUp(StoreReader reader) {
        AlarmNumbers numbers = new AlarmNumbers(reader.lastAlarmNumber());
        numbers.standing.putAll(reader.standingNumbers());
        numbers.gone.putAll(reader.goneNumbers(MOST_GONE));
        return numbers;
    }

    /** The number of the alarm that has changed. */
    long of(AlarmChange change) {
        String id = change.alarmId();
        Long known = standing.remove(id);
        if (known == null) {
            known = gone.remove(id);
        }
        long number = known == null ? ++last : known;
        if (change.to() == AlarmState.NORMAL) {
            gone.put(id, number);
            forgetTheOldest();
        } else {
            standing.put(id, number);
        }
        return number;
    }

    private void forgetTheOldest() {
        if (gone.size() > MOST_GONE) {
            gone.remove(gone.keySet().iterator().next());
        }
    }
}
