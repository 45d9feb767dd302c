package leat.alarm;

import static java.util.Objects.requireNonNull;

import leat.rule.Finding;

/**
 * An alarm went from one state to another, or changed its grade.
 *
 * @param alarmId stable id, such as {@code jet-1.ratio.20260105T060031Z-7}, until the alarm has
 *     returned and been acknowledged; made from event time, so a replay gives the same
 * @param revision 1 for the first change of this alarm, then counting; id and revision together
 *     name a change for ever
 * @param event what happened
 * @param from state before
 * @param to state after
 * @param atMicros event time, microseconds UTC
 * @param raisedAtMicros when it was last raised, microseconds UTC
 * @param finding the finding that stands, or for a return the last that stood
 * @param by who acknowledged; empty for what no person did
 */
public record AlarmChange(
        String alarmId,
        int revision,
        AlarmEvent event,
        AlarmState from,
        AlarmState to,
        long atMicros,
        long raisedAtMicros,
        Finding finding,
        String by) {

    public AlarmChange {
        requireNonNull(alarmId, "alarmId");
        requireNonNull(event, "event");
        requireNonNull(from, "from");
        requireNonNull(to, "to");
        requireNonNull(finding, "finding");
        requireNonNull(by, "by");
    }
}
