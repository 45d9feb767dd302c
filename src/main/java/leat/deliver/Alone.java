package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;

/**
 * A call about an alarm that was told in the call of another of the same cause, which does not
 * stand for it any more. Immutable.
 *
 * @param machine name of the machine
 * @param latest the alarm's latest change
 * @param why what is known of its cause
 * @param number by which people call it
 */
record Alone(String machine, AlarmChange latest, Optional<Diagnosis> why, OptionalLong number)
        implements LaterCall {

    Alone {
        requireNonNull(machine, "machine");
        requireNonNull(latest, "latest");
        requireNonNull(why, "why");
    }

    /** Alarm, revision, what this is, and a number as every id of a message has it. */
    @Override
    public String id() {
        return latest.alarmId() + "/" + latest.revision() + "/" + event() + "/1";
    }

    @Override
    public boolean isAgain() {
        return false;
    }

    @Override
    public String event() {
        return "alone";
    }
}
