package leat.page;

import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/** The latest snapshot, and those that wait for the next one. Thread-safe. */
final class Latest {

    /**
     * A snapshot in its place.
     *
     * @param number counts from 1
     */
    record Numbered(long number, Snapshot snapshot) {}

    /** Longer than a look ever takes; what is older is not shown as if it were of now. */
    private static final long FRESH_NANOS = Duration.ofSeconds(10).toNanos();

    private Optional<Numbered> latest = Optional.empty();
    private long putNanos;
    private boolean closed;

    synchronized void put(Snapshot snapshot) {
        putNanos = System.nanoTime();
        latest = Optional.of(new Numbered(latest.map(Numbered::number).orElse(0L) + 1, snapshot));
        notifyAll();
    }

    /** Empty before the first, and when no new one has come for ten seconds. */
    synchronized Optional<Snapshot> now() {
        boolean isFresh = System.nanoTime() - putNanos <= FRESH_NANOS;
        return latest.filter(any -> isFresh).map(Numbered::snapshot);
    }

    /**
     * The latest one after a number; waits for it.
     *
     * @return empty when none came in time, or none will come any more
     */
    synchronized Optional<Numbered> after(long number, Duration atMost)
            throws InterruptedException {
        long end = System.nanoTime() + atMost.toNanos();
        while (!closed && latest.map(Numbered::number).orElse(0L) <= number) {
            long left = end - System.nanoTime();
            if (left <= 0) {
                return Optional.empty();
            }
            TimeUnit.NANOSECONDS.timedWait(this, left);
        }
        return closed ? Optional.empty() : latest;
    }

    /** Whoever waits goes. */
    synchronized void close() {
        closed = true;
        notifyAll();
    }
}
