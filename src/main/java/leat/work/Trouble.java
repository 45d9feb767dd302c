package leat.work;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Optional;
import java.util.function.LongSupplier;

/**
 * One thing that can go wrong for a while, as a log is to hear of it: when it begins, when its
 * reason changes, and when it is over. A disk that is full for a night fails each second and is
 * news twice. A trouble that is never declared over is news once. The words are the caller's.
 *
 * <p>Thread-safe.
 */
public final class Trouble {

    /**
     * What is over.
     *
     * @param lasted from the first failure to the end
     * @param times how often it was met, 1 or more
     */
    public record Past(Duration lasted, long times) {

        /** As a log says it: {@code "12 s"}, {@code "0.4 s"}. */
        public String seconds() {
            long millis = lasted.toMillis();
            return millis < 10_000 ? millis / 100 / 10.0 + " s" : millis / 1000 + " s";
        }
    }

    private final Duration changesAtMostEvery;
    private final LongSupplier nanos;
    private long times;
    private long sinceNanos;
    private long saidNanos;
    private String saidReason = "";
    private String reason = "";

    /**
     * @param changesAtMostEvery another reason is news no sooner after the last news; zero for at
     *     once. Some servers put a number into every answer
     * @param nanos monotonic clock, as {@code System::nanoTime}
     */
    public Trouble(Duration changesAtMostEvery, LongSupplier nanos) {
        this.changesAtMostEvery = requireNonNull(changesAtMostEvery, "changesAtMostEvery");
        this.nanos = requireNonNull(nanos, "nanos");
    }

    /** A change of the reason is news at once. */
    public Trouble() {
        this(Duration.ZERO, System::nanoTime);
    }

    /**
     * It has been met, for this reason.
     *
     * @return whether the log should hear of it: it has begun, or has another reason than was said
     */
    public synchronized boolean isNews(String why) {
        requireNonNull(why, "why");
        long now = nanos.getAsLong();
        reason = why;
        boolean isBegun = times == 0;
        if (isBegun) {
            sinceNanos = now;
        }
        times++;
        boolean isDue = now - saidNanos >= changesAtMostEvery.toNanos();
        if (!isBegun && (!isDue || why.equals(saidReason))) {
            return false;
        }
        saidNanos = now;
        saidReason = why;
        return true;
    }

    /** It is over. Empty when there was none. */
    public synchronized Optional<Past> over() {
        if (times == 0) {
            return Optional.empty();
        }
        Past past = new Past(lasting(), times);
        times = 0;
        reason = "";
        return Optional.of(past);
    }

    /** How often it has been met since it began; 0 when there is none. */
    public synchronized long times() {
        return times;
    }

    /** Since its beginning; zero when there is none. */
    public synchronized Duration lasting() {
        return times == 0 ? Duration.ZERO : Duration.ofNanos(nanos.getAsLong() - sinceNanos);
    }

    /** The latest reason; empty when there is none. */
    public synchronized String reason() {
        return reason;
    }
}
