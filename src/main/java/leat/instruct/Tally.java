package leat.instruct;

import java.util.concurrent.atomic.AtomicLongArray;
import java.util.function.LongSupplier;
import org.slf4j.Logger;

/**
 * Counts what became of messages, and tells the log of those that were refused: the first of each
 * kind, and then at most one line a minute for all kinds. Thread-safe.
 */
final class Tally {

    /** What can become of a message. */
    enum End {
        ACCEPTED(""),
        NOT_FOLLOWED("cannot be followed"),
        UNSIGNED("is not signed by a person of this site"),
        STALE("was signed too long ago, or by a clock that is ahead"),
        REPEATED("was seen before"),
        OVERSIZED("is longer than any instruction"),
        RETAINED("was kept by the broker"),
        OVERRUN("came while too many others waited");

        private final String words;

        End(String words) {
            this.words = words;
        }
    }

    private static final long TELL_NANOS = 60_000_000_000L;

    private final Logger log;
    private final LongSupplier nanos;
    private final AtomicLongArray counts = new AtomicLongArray(End.values().length);
    private long toldNanos;

    /**
     * @param nanos monotonic clock, as {@code System::nanoTime}
     */
    Tally(Logger log, LongSupplier nanos) {
        this.log = log;
        this.nanos = nanos;
    }

    void accepted() {
        counts.incrementAndGet(End.ACCEPTED.ordinal());
    }

    /**
     * @param detail for the log alone; in words of our own
     */
    synchronized void refused(End end, String detail) {
        long count = counts.incrementAndGet(end.ordinal());
        long now = nanos.getAsLong();
        if (count == 1 || now - toldNanos >= TELL_NANOS) {
            toldNanos = now;
            log.warn(
                    "an instruction by MQTT is refused: it {}{}{}; {} of this kind since the start",
                    end.words,
                    detail.isEmpty() ? "" : ": ",
                    detail,
                    count);
        }
    }

    ReceptionHealth health() {
        return new ReceptionHealth(
                count(End.ACCEPTED),
                count(End.NOT_FOLLOWED),
                count(End.UNSIGNED),
                count(End.STALE),
                count(End.REPEATED),
                count(End.OVERSIZED),
                count(End.RETAINED),
                count(End.OVERRUN));
    }

    private long count(End end) {
        return counts.get(end.ordinal());
    }
}
