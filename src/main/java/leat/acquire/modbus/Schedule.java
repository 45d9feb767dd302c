package leat.acquire.modbus;

/**
 * Deadlines at a fixed rate on the monotonic clock: start + n * period, whatever happened to the
 * polls before, so that they neither drift nor pile up. Thread-confined.
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
     * Moves on to the next deadline that has not passed.
     *
     * @return deadlines that passed while the last poll ran: their polls are lost
     */
    long advance(long nowNanos) {
        deadlineNanos += periodNanos;
        long late = nowNanos - deadlineNanos;
        if (late <= 0) {
            return 0;
        }
        long skipped = (late + periodNanos - 1) / periodNanos;
        deadlineNanos += skipped * periodNanos;
        return skipped;
    }
}
