package leat.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.rule.Finding;
import leat.rule.Remark;

/** The end of an alarm that a watch without its past cannot know. Thread-confined. */
final class Afresh {

    private static final String BY = "leat";

    private final AlarmChange last;
    private final Finding finding;
    private final long nowMicros;
    private final List<AlarmChange> changes = new ArrayList<>();
    private AlarmState shown;
    private AlarmState own;

    private Afresh(AlarmChange last, long nowMicros) {
        this.last = last;
        this.nowMicros = nowMicros;
        finding =
                last.finding()
                        .asOf(
                                last.finding().inletPsi(),
                                last.finding().boostedPsi(),
                                List.of(Remark.of(Remark.Kind.AFRESH_WITHOUT_PAST)));
        shown = last.to();
        own = last.notes().own();
    }

    /** The changes that bring a standing alarm back to normal, each a legal one and no call. */
    static List<AlarmChange> closing(AlarmChange last, long nowMicros) {
        Afresh closing = new Afresh(last, nowMicros);
        closing.endHold();
        closing.acknowledge();
        closing.clear();
        return closing.changes;
    }

    private void endHold() {
        if (!shown.isHeld()) {
            return;
        }
        if (own.isActive()) {
            own =
                    own == AlarmState.UNACKNOWLEDGED
                            ? AlarmState.RETURNED_UNACKNOWLEDGED
                            : AlarmState.NORMAL;
            change(AlarmEvent.RETURNED, shown);
        }
        change(
                switch (shown) {
                    case SUPPRESSED -> AlarmEvent.RELEASED;
                    case OUT_OF_SERVICE -> AlarmEvent.RESTORED;
                    case SHELVED,
                            NORMAL,
                            UNACKNOWLEDGED,
                            ACKNOWLEDGED,
                            RETURNED_UNACKNOWLEDGED,
                            LATCHED_UNACKNOWLEDGED,
                            LATCHED_ACKNOWLEDGED ->
                            AlarmEvent.UNSHELVED;
                },
                own);
    }

    private void acknowledge() {
        if (!own.needsAcknowledging()) {
            return;
        }
        own =
                switch (own) {
                    case UNACKNOWLEDGED -> AlarmState.ACKNOWLEDGED;
                    case LATCHED_UNACKNOWLEDGED -> AlarmState.LATCHED_ACKNOWLEDGED;
                    case RETURNED_UNACKNOWLEDGED,
                            NORMAL,
                            ACKNOWLEDGED,
                            LATCHED_ACKNOWLEDGED,
                            SHELVED,
                            SUPPRESSED,
                            OUT_OF_SERVICE ->
                            AlarmState.NORMAL;
                };
        change(AlarmEvent.ACKNOWLEDGED, own);
    }

    private void clear() {
        if (own == AlarmState.NORMAL) {
            return;
        }
        AlarmEvent event =
                own == AlarmState.LATCHED_ACKNOWLEDGED ? AlarmEvent.RESET : AlarmEvent.RETURNED;
        own = AlarmState.NORMAL;
        change(event, own);
    }

    private void change(AlarmEvent event, AlarmState to) {
        changes.add(
                new AlarmChange(
                        last.alarmId(),
                        last.revision() + changes.size() + 1,
                        event,
                        shown,
                        to,
                        nowMicros,
                        last.raisedAtMicros(),
                        finding,
                        BY,
                        new AlarmNotes(
                                own,
                                last.notes().count(),
                                false,
                                OptionalLong.empty(),
                                "",
                                Optional.empty())));
        shown = to;
    }
}
