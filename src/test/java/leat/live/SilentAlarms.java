package leat.live;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.measure.Figure;
import leat.measure.absence.Absence;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.store.Batch;
import leat.watch.Outcome;

/** Alarms of channels that have fallen silent, as a store has them. */
public final class SilentAlarms {

    private SilentAlarms() {}

    /** Both pressures of a machine fell silent at a time, microseconds UTC; nobody has seen it. */
    public static void into(Batch batch, String hash, String machine, long atMicros) {
        for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
            AlarmChange change = raised(machine, channel, atMicros);
            batch.said(machine, 1, new Outcome.AlarmChanged(change), hash);
        }
    }

    /** Of one channel. */
    public static AlarmChange raised(String machine, Channel channel, long atMicros) {
        return new AlarmChange(
                machine + ".signal-missing." + channel.key() + "." + atMicros,
                1,
                AlarmEvent.RAISED,
                AlarmState.NORMAL,
                AlarmState.UNACKNOWLEDGED,
                atMicros,
                atMicros,
                finding(channel, atMicros),
                "",
                new AlarmNotes(
                        AlarmState.UNACKNOWLEDGED,
                        1,
                        false,
                        OptionalLong.empty(),
                        "",
                        Optional.empty()));
    }

    private static Finding finding(Channel channel, long atMicros) {
        Figure unseen = Figure.absent(Absence.NOT_LOOKED_AT);
        return new Finding(
                Rule.SIGNAL_MISSING,
                channel,
                Grade.WARNING,
                atMicros - 10_000_000,
                atMicros,
                Finding.Quantity.TIME_SECONDS,
                10,
                10,
                Finding.Sense.AT_MOST,
                unseen,
                unseen,
                List.of());
    }
}
