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

    /** A look is due each second; what is older is not shown as if it were of now. */
    private static final long FRESH_NANOS = Duration.ofSeconds(3).toNanos();

    /** So long after somebody has asked looks go on. */
    private static final long WANTED_NANOS = Duration.ofSeconds(5).toNanos();

    private static final Duration LONGEST_WAIT = Duration.ofSeconds(4);

    private Optional<Numbered> latest = Optional.empty();
    private long putNanos;
    private long askedNanos = System.nanoTime();
    private boolean closed;

    synchronized void put(Snapshot snapshot) {
        putNanos = System.nanoTime();
        latest = Optional.of(new Numbered(latest.map(Numbered::number).orElse(0L) + 1, snapshot));
        notifyAll();
    }

    /** Whether anybody has asked within the last seconds: else nobody needs a new one. */
    synchronized boolean isWanted() {
        return System.nanoTime() - askedNanos <= WANTED_NANOS;
    }

    /**
     * One of this moment. The first to ask after a while waits until it is made.
     *
     * @return empty where none is made in some seconds
     */
    synchronized Optional<Snapshot> now() throws InterruptedException {
        askedNanos = System.nanoTime();
        boolean isFresh = askedNanos - putNanos <= FRESH_NANOS;
        return (latest.isPresent() && isFresh
                        ? latest
                        : after(latest.map(Numbered::number).orElse(0L), LONGEST_WAIT))
                .map(Numbered::snapshot);
    }

    /** Whether any was ever made. */
    synchronized boolean hasAny() {
        return latest.isPresent();
    }

    /**
     * The latest one after a number; waits for it.
     *
     * @return empty when none came in time, or none will come any more
     */
    synchronized Optional<Numbered> after(long number, Duration atMost)
            throws InterruptedException {
        askedNanos = System.nanoTime();
        long end = askedNanos + atMost.toNanos();
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
