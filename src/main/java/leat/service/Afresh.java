package leat.service;

import java.util.ArrayList;
import java.util.List;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.rule.Finding;

/** The end of alarms that a watch without its past cannot know. */
final class Afresh {

    private static final String BY = "leat";
    private static final String WHY = "leat started without its past and judges afresh";

    private Afresh() {}

    /** The changes that bring a standing alarm back to normal, each a legal one. */
    static List<AlarmChange> closing(AlarmChange last, long nowMicros) {
        List<AlarmChange> changes = new ArrayList<>();
        Finding finding =
                last.finding().asOf(last.finding().inletPsi(), last.finding().boostedPsi(), WHY);
        AlarmState state = last.to();
        int revision = last.revision();
        if (state.needsAcknowledging()) {
            AlarmState next = state.isActive() ? AlarmState.ACKNOWLEDGED : AlarmState.NORMAL;
            changes.add(
                    change(
                            last,
                            ++revision,
                            AlarmEvent.ACKNOWLEDGED,
                            state,
                            next,
                            nowMicros,
                            finding));
            state = next;
        }
        if (state.isActive()) {
            changes.add(
                    change(
                            last,
                            ++revision,
                            AlarmEvent.RETURNED,
                            state,
                            AlarmState.NORMAL,
                            nowMicros,
                            finding));
        }
        return changes;
    }

    private static AlarmChange change(
            AlarmChange last,
            int revision,
            AlarmEvent event,
            AlarmState from,
            AlarmState to,
            long nowMicros,
            Finding finding) {
        return new AlarmChange(
                last.alarmId(),
                revision,
                event,
                from,
                to,
                nowMicros,
                last.raisedAtMicros(),
                finding,
                BY);
    }
}
