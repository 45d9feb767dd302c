package leat.acquire.mqtt;

import static java.util.Objects.requireNonNull;

import java.util.OptionalLong;

/**
 * What a message says.
 *
 * @param raw the number as delivered, finite; 0 or 1 for a contact
 * @param atMicros the time that the payload carries, microseconds UTC; empty if it carries none
 */
public record Payload(double raw, OptionalLong atMicros) {

    public Payload {
        requireNonNull(atMicros, "atMicros");
        if (!Double.isFinite(raw)) {
            throw new IllegalArgumentException("not finite: " + raw);
        }
    }
}
