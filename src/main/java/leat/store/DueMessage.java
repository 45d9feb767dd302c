package leat.store;

import static java.util.Objects.requireNonNull;

/**
 * A message that waits for its delivery.
 *
 * @param number its place in the outbox, growing; the delivery mark names it
 * @param attempts deliveries tried so far
 * @param message what is owed
 */
public record DueMessage(long number, long attempts, OwedMessage message) {

    public DueMessage {
        requireNonNull(message, "message");
    }
}
