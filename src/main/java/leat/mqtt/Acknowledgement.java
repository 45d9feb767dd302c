package leat.mqtt;

import static java.util.Objects.requireNonNull;

/**
 * What came of a publication. Immutable.
 *
 * @param acknowledged true when the broker has taken the message over; false when that is not
 *     known, so that the message may arrive twice if it is sent again
 * @param reason why not, in plain words with the endpoint; empty when acknowledged
 */
public record Acknowledgement(boolean acknowledged, String reason) {

    static final Acknowledgement GIVEN = new Acknowledgement(true, "");

    public Acknowledgement {
        requireNonNull(reason, "reason");
    }

    static Acknowledgement missing(String reason) {
        return new Acknowledgement(false, reason);
    }
}
