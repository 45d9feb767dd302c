package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.store.Message;

/**
 * A message that a route is owed, not yet in words. Immutable.
 *
 * @param id the same for every repeat; unique within its route
 * @param route name of the route
 * @param atMicros event time, microseconds UTC
 * @param about what it tells of
 * @param foldedInto id of the message that stands for it; empty when it is told itself
 */
public record Notification(
        String id, String route, long atMicros, About about, Optional<String> foldedInto) {

    public Notification {
        requireNonNull(id, "id");
        requireNonNull(route, "route");
        requireNonNull(about, "about");
        requireNonNull(foldedInto, "foldedInto");
    }

    /** Told itself. */
    Notification(String id, String route, long atMicros, About about) {
        this(id, route, atMicros, about, Optional.empty());
    }

    /** The same, folded into another or not. */
    Notification into(Optional<String> other) {
        return new Notification(id, route, atMicros, about, other);
    }

    Message message(String topic, String subject, String text, String json) {
        return new Message(
                id,
                route,
                about.machine(),
                about.alarmId(),
                about.grade(),
                atMicros,
                topic,
                about.kind(),
                about.event(),
                subject,
                text,
                json,
                foldedInto);
    }
}
