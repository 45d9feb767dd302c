package leat.deliver;

import static java.util.Objects.requireNonNull;

/**
 * What came of one attempt to deliver. Immutable.
 *
 * @param delivered true when the other side has taken the message over
 * @param reason why not, in plain words with the endpoint; empty when delivered
 */
public record DeliveryResult(boolean delivered, String reason) {

    public static final DeliveryResult DELIVERED = new DeliveryResult(true, "");

    public DeliveryResult {
        requireNonNull(reason, "reason");
        if (delivered != reason.isEmpty()) {
            throw new IllegalArgumentException("a reason is given when, and only when, it failed");
        }
    }

    /** Not this time: the message stays owed and is tried again. */
    public static DeliveryResult notNow(String reason) {
        return new DeliveryResult(false, reason);
    }
}
