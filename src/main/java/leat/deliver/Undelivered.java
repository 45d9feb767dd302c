package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import leat.rule.Grade;
import leat.store.Message;

/**
 * A route has given messages up. Immutable.
 *
 * @param machine of the messages
 * @param lost of one route and one machine, at least one
 * @param reason why, in plain words
 */
record Undelivered(String machine, List<Message> lost, String reason) implements About {

    Undelivered {
        requireNonNull(machine, "machine");
        lost = List.copyOf(lost);
        requireNonNull(reason, "reason");
    }

    /** The route that gave up. */
    String route() {
        return lost.get(0).route();
    }

    String id() {
        return lost.get(0).id() + "/" + event() + "/" + route();
    }

    @Override
    public Message.Kind kind() {
        return Message.Kind.NOTICE;
    }

    @Override
    public String event() {
        return "undelivered";
    }

    @Override
    public Grade grade() {
        return lost.stream().map(Message::grade).max(Comparator.naturalOrder()).orElseThrow();
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        return wording.undelivered(notification, this);
    }
}
