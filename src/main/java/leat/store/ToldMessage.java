package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * A message of an alarm that was owed to a route, delivered or not. Immutable.
 *
 * @param told whom, and of which occurrence
 * @param messageId its id
 * @param event what happened, as the JSON says it
 * @param into id of the message that stands for it; empty when it was told itself
 */
public record ToldMessage(Told told, String messageId, String event, Optional<String> into) {

    public ToldMessage {
        requireNonNull(told, "told");
        requireNonNull(messageId, "messageId");
        requireNonNull(event, "event");
        requireNonNull(into, "into");
    }
}
