package leat.acquire.modbus;

/**
 * Deadlines at a fixed rate on the monotonic clock: start + n * period, whatever happened to the
 * polls before, so that they neither drift nor pile up: at most one poll is ever due.
 * Thread-confined.
 */
final class Schedule {

    private final long periodNanos;
    private long deadlineNanos;

    Schedule(long startNanos, long periodNanos) {
        if (periodNanos <= 0) {
            throw new IllegalArgumentException("period must be positive: " + periodNanos);
        }
        this.deadlineNanos = startNanos;
        this.periodNanos = periodNanos;
    }

    /** When the next poll is to start. */
    long deadlineNanos() {
        return deadlineNanos;
    }

    /**
     * Moves on to the next deadline: one that is ahead, or that passed by half a period at most and
     * can still be met late.
     *
     * @return deadlines that passed while the last poll ran, and are past meeting: their polls are
     *     lost
     */
    long advance(long nowNanos) {
        deadlineNanos += periodNanos;
        long tooLate = nowNanos - deadlineNanos - periodNanos / 2;
        if (tooLate <= 0) {
            return 0;
        }
        long skipped = (tooLate + periodNanos - 1) / periodNanos;
        deadlineNanos += skipped * periodNanos;
        return skipped;
    }
}
