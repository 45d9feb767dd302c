package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * Messages of one machine that a route does not get one by one, because it got too many. Immutable.
 *
 * @param id of the one message that stands for them
 * @param route name of the route
 * @param machine name of the machine
 * @param messages those that are not told themselves, in their order, at least one
 */
public record Folded(String id, String route, String machine, List<Message> messages) {

    public Folded {
        requireNonNull(id, "id");
        requireNonNull(route, "route");
        requireNonNull(machine, "machine");
        messages = List.copyOf(messages);
        if (messages.isEmpty()) {
            throw new IllegalArgumentException(id + " folds nothing");
        }
    }
}
