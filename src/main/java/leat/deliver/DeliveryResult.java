package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.Duration;

/**
 * What came of one attempt to deliver. Immutable.
 *
 * @param kind what came of it
 * @param reason why not, in plain words with the endpoint; empty when delivered
 * @param pause how long the other side asks to be left alone; zero when it did not say
 */
public record DeliveryResult(Answer kind, String reason, Duration pause) {

    /** What can come of an attempt. */
    public enum Answer {
        /** The other side has taken the message over. */
        DELIVERED,
        /** Not this time: the message stays owed and is tried again. */
        NOT_NOW,
        /** The other side will never take this message: trying again is no use. */
        REFUSED
    }

    public static final DeliveryResult DELIVERED =
            new DeliveryResult(Answer.DELIVERED, "", Duration.ZERO);

    public DeliveryResult {
        requireNonNull(kind, "kind");
        requireNonNull(reason, "reason");
        requireNonNull(pause, "pause");
        if ((kind == Answer.DELIVERED) != reason.isEmpty()) {
            throw new IllegalArgumentException("a reason is given when, and only when, it failed");
        }
    }

    /** Not this time: the message stays owed and is tried again. */
    public static DeliveryResult notNow(String reason) {
        return notNow(reason, Duration.ZERO);
    }

    /** Not this time, and not before {@code pause} is over. */
    public static DeliveryResult notNow(String reason, Duration pause) {
        return new DeliveryResult(Answer.NOT_NOW, reason, pause);
    }

    /** For good: only for what is wrong with this message, never for a wrong setting. */
    public static DeliveryResult refused(String reason) {
        return new DeliveryResult(Answer.REFUSED, reason, Duration.ZERO);
    }

    public boolean delivered() {
        return kind == Answer.DELIVERED;
    }
}
