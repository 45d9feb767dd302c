package leat.store;

import static java.util.Objects.requireNonNull;

import leat.alarm.AlarmChange;

/**
 * How an alarm stands: its last change, and where that came from.
 *
 * @param number what people are shown and type; never used again for another alarm
 * @param machine name of the machine
 * @param seq the input that caused the change
 * @param change the last change
 * @param configHash the configuration that it was judged under
 */
public record StoredAlarm(
        long number, String machine, long seq, AlarmChange change, String configHash) {

    public StoredAlarm {
        requireNonNull(machine, "machine");
        requireNonNull(change, "change");
        requireNonNull(configHash, "configHash");
    }
}
