package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;

/**
 * A call about an alarm that nobody has acknowledged. Immutable.
 *
 * @param machine name of the machine
 * @param latest the alarm's latest change
 * @param why what is known of its cause
 * @param number by which people call it
 * @param since since when it has stood so
 * @param times how many periods have passed; 0 for the first call on a route that is called only
 *     when nobody else answers
 */
record Again(
        String machine,
        AlarmChange latest,
        Optional<Diagnosis> why,
        OptionalLong number,
        StandingAlarm.Since since,
        long times)
        implements LaterCall {

    Again {
        requireNonNull(machine, "machine");
        requireNonNull(latest, "latest");
        requireNonNull(why, "why");
        requireNonNull(since, "since");
    }

    /** Alarm, revision since which it stands, what this is, and its number. */
    @Override
    public String id() {
        return latest.alarmId() + "/" + since.revision() + "/" + event() + "/" + Math.max(1, times);
    }

    @Override
    public boolean isAgain() {
        return true;
    }

    @Override
    public String event() {
        return times == 0 ? "escalated" : "again";
    }
}
