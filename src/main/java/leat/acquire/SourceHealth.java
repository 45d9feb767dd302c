package leat.acquire;

import static java.util.Objects.requireNonNull;

/**
 * Counts of one source since its start.
 *
 * @param connected whether the last exchange with the field worked
 * @param readings readings delivered
 * @param missed polls that were skipped because an earlier one took too long, and inputs that the
 *     intake could not take
 * @param faults exchanges that failed: time-outs, refusals, malformed payloads, lost connections
 * @param lastFault the last fault in plain words with endpoint and what to check; empty if none
 */
public record SourceHealth(
        boolean connected, long readings, long missed, long faults, String lastFault) {
    public SourceHealth {
        requireNonNull(lastFault, "lastFault");
    }
}
