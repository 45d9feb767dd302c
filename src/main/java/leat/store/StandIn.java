package leat.store;

import static java.util.Objects.requireNonNull;

/**
 * A message that stands for others, or is to stand for them. Immutable.
 *
 * @param route name of the route
 * @param messageId its id, which the others name as the one that they are folded into
 */
public record StandIn(String route, String messageId) {

    public StandIn {
        requireNonNull(route, "route");
        requireNonNull(messageId, "messageId");
    }
}
