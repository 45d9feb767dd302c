package leat.mqtt;

import static java.util.Objects.requireNonNull;

/**
 * How a connection to a broker has gone since its start. Immutable.
 *
 * @param connected whether it stands now
 * @param connects times that it was made
 * @param faults failed attempts, losses, and subscriptions that the broker refused
 * @param received messages handed to a receiver
 * @param dropped messages that a receiver failed on or that nobody had asked for
 * @param published messages that the broker acknowledged
 * @param unacknowledged messages that it did not acknowledge in time, or that could not be sent
 * @param lastFault the last fault in plain words with endpoint and what to check; empty if none
 */
public record LinkHealth(
        boolean connected,
        long connects,
        long faults,
        long received,
        long dropped,
        long published,
        long unacknowledged,
        String lastFault) {

    public LinkHealth {
        requireNonNull(lastFault, "lastFault");
    }
}
