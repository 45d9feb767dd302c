package leat.store;

import static java.util.Objects.requireNonNull;

/**
 * A message in the outbox that has not reached its receiver. Immutable.
 *
 * @param number its number in the outbox, by which it is marked; a later message of a route has a
 *     greater one
 * @param attempts deliveries tried so far
 * @param message what to send
 */
public record Owed(long number, long attempts, Message message) {

    public Owed {
        requireNonNull(message, "message");
    }
}
