package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.signal.Channel;

/**
 * A channel that fell silent together with others. Immutable.
 *
 * @param alarmId its own alarm
 * @param machine name of the machine
 * @param channel which of its channels
 * @param connection name of the connection that brings it
 * @param sinceMicros since when nothing came, microseconds UTC
 * @param backMicros when its alarm went, microseconds UTC; empty while it is silent
 * @param isOver whether its alarm is back to normal: nobody has anything to do with it any more
 * @param acknowledged whether somebody looks after it
 * @param number by which people call its alarm; empty where it is not stored
 */
record SilentChannel(
        String alarmId,
        String machine,
        Channel channel,
        String connection,
        long sinceMicros,
        OptionalLong backMicros,
        boolean isOver,
        boolean acknowledged,
        OptionalLong number) {

    SilentChannel {
        requireNonNull(alarmId, "alarmId");
        requireNonNull(machine, "machine");
        requireNonNull(channel, "channel");
        requireNonNull(connection, "connection");
        requireNonNull(backMicros, "backMicros");
        requireNonNull(number, "number");
    }

    static SilentChannel of(Changed call, String connection) {
        return new SilentChannel(
                call.alarmId(),
                call.machine(),
                call.change().finding().channel(),
                connection,
                call.change().finding().sinceMicros(),
                OptionalLong.empty(),
                false,
                false,
                call.number());
    }

    boolean isAway() {
        return backMicros.isEmpty();
    }

    /** After a change of its alarm. */
    SilentChannel after(AlarmChange change) {
        OptionalLong back = isAway() ? OptionalLong.of(change.atMicros()) : backMicros;
        return new SilentChannel(
                alarmId,
                machine,
                channel,
                connection,
                sinceMicros,
                change.to().isActive() ? OptionalLong.empty() : back,
                change.to() == AlarmState.NORMAL,
                acknowledged || change.event() == AlarmEvent.ACKNOWLEDGED,
                number);
    }
}
