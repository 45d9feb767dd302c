package leat.deliver;

import static java.util.Objects.requireNonNull;

/**
 * A message that is to be written into the outbox for a route. Immutable.
 *
 * @param route the route's name in the configuration
 * @param message what to send
 */
public record Addressed(String route, Message message) {

    public Addressed {
        requireNonNull(route, "route");
        requireNonNull(message, "message");
    }
}
