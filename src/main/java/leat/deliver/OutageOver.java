package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.stream.Stream;
import leat.rule.Grade;
import leat.store.Message;

/**
 * Channels that fell silent together are read again, or some of them. Immutable.
 *
 * @param alarmId the alarm by which the call is known that told that they were silent
 * @param messages ids of the messages that it stands for
 * @param back those that are read again, or were for a while; at least one
 * @param away those that are still silent
 */
record OutageOver(
        String alarmId, List<String> messages, List<SilentChannel> back, List<SilentChannel> away)
        implements About {

    static final String EVENT = "read-again";

    OutageOver {
        requireNonNull(alarmId, "alarmId");
        messages = List.copyOf(messages);
        back = List.copyOf(back);
        away = List.copyOf(away);
    }

    /** Of all its channels, where that is one. */
    @Override
    public String machine() {
        List<String> machines =
                Stream.concat(back.stream(), away.stream())
                        .map(SilentChannel::machine)
                        .distinct()
                        .toList();
        return machines.size() == 1 ? machines.get(0) : Message.EVERY_MACHINE;
    }

    @Override
    public Message.Purpose kind() {
        return Message.Purpose.NEWS;
    }

    @Override
    public String event() {
        return EVENT;
    }

    @Override
    public Grade grade() {
        return Grade.WARNING;
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        return wording.over(notification, this);
    }
}
