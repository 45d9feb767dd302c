package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Optional;

/**
 * Why something failed, and when to try it again: at the next poll first, then after pauses that
 * double from 250 ms up to the longest. Thread-confined.
 */
final class Retry {

    private static final long FIRST_PAUSE_NANOS = 250_000_000;

    private final long longestPauseNanos;
    private Optional<LinkFault> fault = Optional.empty();
    private long pauseNanos;
    private long dueNanos;

    Retry(Duration longestPause) {
        longestPauseNanos = longestPause.toNanos();
    }

    /**
     * @param pollNanos when the poll began, so that what failed in this poll is not due in it again
     */
    boolean isDue(long pollNanos) {
        return fault.isEmpty() || pollNanos - dueNanos >= 0;
    }

    /** The last failure; empty when the last try worked, or there was none yet. */
    Optional<LinkFault> fault() {
        return fault;
    }

    void failed(LinkFault newFault, long nowNanos) {
        if (fault.isEmpty()) {
            pauseNanos = 0;
        } else {
            long next = pauseNanos == 0 ? FIRST_PAUSE_NANOS : 2 * pauseNanos;
            pauseNanos = Math.min(next, longestPauseNanos);
        }
        fault = Optional.of(requireNonNull(newFault, "newFault"));
        dueNanos = nowNanos + pauseNanos;
    }

    void answered() {
        fault = Optional.empty();
    }
}
