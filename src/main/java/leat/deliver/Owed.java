package leat.deliver;

import static java.util.Objects.requireNonNull;

/**
 * A message in the outbox that has not been delivered yet. Immutable.
 *
 * @param number its number in the outbox; a later message of a route has a greater one
 * @param route the route's name in the configuration
 * @param message what to send
 */
public record Owed(long number, String route, Message message) {

    public Owed {
        requireNonNull(route, "route");
        requireNonNull(message, "message");
    }
}
