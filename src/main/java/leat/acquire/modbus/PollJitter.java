package leat.acquire.modbus;

import java.time.Duration;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicLongArray;

/**
 * How late polls started, against their deadlines: a histogram in fixed memory (4 kB). Up to 16 µs
 * it is exact to a microsecond, above that to 1/16 of the value; a quantile is never rounded down.
 * Thread-safe.
 */
public final class PollJitter {

    private static final int STEPS = 16;
    private static final int OCTAVES = 32;
    private static final long LONGEST_MICROS = (1L << 35) - 1;

    private final AtomicLongArray counts = new AtomicLongArray(STEPS * OCTAVES);
    private final AtomicLong maxNanos = new AtomicLong();

    /** Notes one poll. One that starts before its deadline counts as on time. */
    void add(long lateNanos) {
        long late = Math.max(0, lateNanos);
        counts.incrementAndGet(bucket(TimeUnit.NANOSECONDS.toMicros(late + 999)));
        maxNanos.accumulateAndGet(late, Math::max);
    }

    /** Adds what another histogram has noted, to judge many sources as one. */
    public void addAll(PollJitter other) {
        for (int i = 0; i < counts.length(); i++) {
            counts.addAndGet(i, other.counts.get(i));
        }
        maxNanos.accumulateAndGet(other.maxNanos.get(), Math::max);
    }

    /** Polls noted. */
    public long polls() {
        long polls = 0;
        for (int i = 0; i < counts.length(); i++) {
            polls += counts.get(i);
        }
        return polls;
    }

    /** The lateness that half of the polls do not exceed; zero without polls. */
    public Duration p50() {
        return quantile(0.5);
    }

    /** The lateness that 99 of 100 polls do not exceed; zero without polls. */
    public Duration p99() {
        return quantile(0.99);
    }

    public Duration max() {
        return Duration.ofNanos(maxNanos.get());
    }

    private Duration quantile(double share) {
        long rank = (long) Math.ceil(share * polls());
        long seen = 0;
        for (int i = 0; i < counts.length(); i++) {
            seen += counts.get(i);
            if (seen >= rank && seen > 0) {
                return Duration.ofNanos(Math.min(upperMicros(i) * 1000, maxNanos.get()));
            }
        }
        return Duration.ZERO;
    }

    private static int bucket(long micros) {
        long value = Math.min(micros, LONGEST_MICROS);
        if (value < STEPS) {
            return (int) value;
        }
        int shift = Long.SIZE - 5 - Long.numberOfLeadingZeros(value);
        return (shift + 1) * STEPS + (int) (value >>> shift) - STEPS;
    }

    /** The largest value that falls into a bucket. */
    private static long upperMicros(int bucket) {
        if (bucket < STEPS) {
            return bucket;
        }
        int shift = bucket / STEPS - 1;
        return ((long) (bucket % STEPS + STEPS + 1) << shift) - 1;
    }
}
