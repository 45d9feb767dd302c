package leat.service;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.function.UnaryOperator;
import leat.store.Message;
import leat.store.Owed;

/**
 * Messages that the store did not take: the couriers tell them from memory. They have the numbers
 * that they will have in the outbox, all greater than those that are stored. Thread-safe.
 */
final class UnstoredMessages {

    private final UnaryOperator<Message> marked;
    private final Runnable nudge;
    private volatile List<Owed> owed = List.of();

    /**
     * @param marked puts into a message that it is not stored
     * @param nudge tells the couriers that there is something to deliver
     */
    UnstoredMessages(UnaryOperator<Message> marked, Runnable nudge) {
        this.marked = requireNonNull(marked, "marked");
        this.nudge = requireNonNull(nudge, "nudge");
    }

    /** A commit has failed: this is what nobody can read in the store. */
    void publish(List<Owed> waiting) {
        owed = List.copyOf(waiting);
        if (!waiting.isEmpty()) {
            nudge.run();
        }
    }

    /** A commit has gone through. */
    void clear() {
        owed = List.of();
    }

    /** Those of a route in the order of their numbers. */
    List<Owed> of(String route, long afterNumber) {
        return owed.stream()
                .filter(each -> each.number() > afterNumber)
                .filter(each -> each.message().route().equals(route))
                .toList();
    }

    /** One of them as it is to be told. */
    Owed marked(Owed unstored) {
        return new Owed(unstored.number(), 0, marked.apply(unstored.message()));
    }
}
