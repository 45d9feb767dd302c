package leat.store;

import static java.util.Objects.requireNonNull;

/**
 * A message that is not told itself: another one stands for it. Immutable.
 *
 * @param into id of the message that stands for it on the same route
 * @param message what it would have said
 */
public record FoldedMessage(String into, OwedMessage message) {

    public FoldedMessage {
        requireNonNull(into, "into");
        requireNonNull(message, "message");
    }
}
