package leat.cli;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.store.Batch;
import leat.watch.Outcome;

/**
 * An alarm as a store has it: raised, and then in another state.
 *
 * @param minute after six, when it was raised
 * @param by who brought it to its state
 * @param why the reason
 */
record RaisedAlarm(
        String machine, Grade grade, AlarmState state, int minute, String by, String why) {

    private static final long MINUTE = 60_000_000L;

    String id() {
        return machine + ".ratio." + grade + "-" + minute;
    }

    void into(Batch batch, String hash) {
        batch.said(
                machine, 1, new Outcome.AlarmChanged(change(1, AlarmState.UNACKNOWLEDGED)), hash);
        if (state != AlarmState.UNACKNOWLEDGED) {
            batch.said(machine, 1, new Outcome.AlarmChanged(change(2, state)), hash);
        }
    }

    private AlarmChange change(int revision, AlarmState to) {
        long raised = StoredSite.SIX + minute * MINUTE;
        return new AlarmChange(
                id(),
                revision,
                revision == 1 ? AlarmEvent.RAISED : event(),
                revision == 1 ? AlarmState.NORMAL : AlarmState.UNACKNOWLEDGED,
                to,
                raised + (revision - 1) * MINUTE,
                raised,
                finding(raised),
                by,
                new AlarmNotes(
                        to.isHeld() ? AlarmState.UNACKNOWLEDGED : to,
                        1,
                        to.isHeld(),
                        to == AlarmState.SHELVED
                                ? OptionalLong.of(raised + 480 * MINUTE)
                                : OptionalLong.empty(),
                        why,
                        Optional.empty()));
    }

    private AlarmEvent event() {
        return switch (state) {
            case SHELVED -> AlarmEvent.SHELVED;
            case ACKNOWLEDGED -> AlarmEvent.ACKNOWLEDGED;
            default -> AlarmEvent.RETURNED;
        };
    }

    private Finding finding(long at) {
        return new Finding(
                Rule.RATIO,
                Channel.BOOSTED,
                grade,
                at,
                at,
                Finding.Quantity.RATIO,
                1.81,
                2.0,
                Finding.Sense.AT_LEAST,
                Figure.of(40),
                Figure.of(72.4),
                List.of(new Remark(Remark.Kind.REPORTED, List.of(), why)));
    }
}
