package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;

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

    /** The gravest first; of a grade what nobody has seen first; of those the newest. */
    public static final Comparator<StoredAlarm> WORST_FIRST =
            Comparator.comparing((StoredAlarm a) -> a.change().finding().grade())
                    .thenComparing(a -> a.own().needsAcknowledging())
                    .thenComparing(a -> a.change().raisedAtMicros())
                    .thenComparing(StoredAlarm::number)
                    .reversed();

    public StoredAlarm {
        requireNonNull(machine, "machine");
        requireNonNull(change, "change");
        requireNonNull(configHash, "configHash");
    }

    /** Its own state: of one that is held back the state underneath. */
    public AlarmState own() {
        return change.to().isHeld() ? change.notes().own() : change.to();
    }

    /** Whether it is there now and not put aside. */
    public boolean isActive() {
        return change.to().isActive();
    }
}
