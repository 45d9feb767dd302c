package leat.deliver;

import static java.util.Objects.requireNonNull;

/**
 * How deliveries on one route have gone since the start. Immutable.
 *
 * @param route name of the route
 * @param delivered messages delivered, repeats included
 * @param failed attempts that failed
 * @param givenUp messages that are not tried any more: refused for good, or too old
 * @param lastReason why the last of them failed, in plain words; empty if none did
 */
public record CourierHealth(
        String route, long delivered, long failed, long givenUp, String lastReason) {

    public CourierHealth {
        requireNonNull(route, "route");
        requireNonNull(lastReason, "lastReason");
    }
}
