package leat.instruct;

import java.time.Duration;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.function.LongSupplier;

/**
 * The messages that wait for an answer, in two lines: those that bear a right signature and have
 * not come before, and all others. The others have their turn when nobody else waits, ten times a
 * second at most: however many forged ones come, they cost no more, and a person's own is answered
 * at once. Nothing here touches the disk. Thread-safe.
 */
final class WaitingMessages {

    private static final int SIGNED = 64;
    private static final int OTHERS = 16;
    private static final Duration BETWEEN_OTHERS = Duration.ofMillis(100);

    /** So many signatures are known again: a copy costs its sender nothing. */
    private static final int REMEMBERED = 1_000;

    private final Seal seal;
    private final LongSupplier nanos;
    private final BlockingQueue<byte[]> signed = new ArrayBlockingQueue<>(SIGNED);
    private final BlockingQueue<byte[]> others = new ArrayBlockingQueue<>(OTHERS);
    private final Map<String, Boolean> taken = new LinkedHashMap<>();
    private long lastOtherNanos;

    /**
     * @param nanos monotonic clock, as {@code System::nanoTime}
     */
    WaitingMessages(Seal seal, LongSupplier nanos) {
        this.seal = seal;
        this.nanos = nanos;
        lastOtherNanos = nanos.getAsLong() - BETWEEN_OTHERS.toNanos();
    }

    /**
     * Takes a message, a long one cut to what tells that it is. Returns at once.
     *
     * @return false when its line is full: it is dropped
     */
    synchronized boolean offer(byte[] message) {
        boolean isWhole = message.length <= Reception.LONGEST_BYTES;
        String mark = Seal.mark(message);
        if (!isWhole || taken.containsKey(mark) || seal.open(message).isEmpty()) {
            return others.offer(
                    isWhole ? message : Arrays.copyOf(message, Reception.LONGEST_BYTES + 1));
        }
        if (!signed.offer(message)) {
            return false;
        }
        taken.put(mark, true);
        if (taken.size() > REMEMBERED) {
            taken.remove(taken.keySet().iterator().next());
        }
        return true;
    }

    /** The one whose turn it is, if any. */
    synchronized Optional<byte[]> next() {
        byte[] first = signed.poll();
        if (first == null && untilOther().isZero()) {
            first = others.poll();
            lastOtherNanos = first == null ? lastOtherNanos : nanos.getAsLong();
        }
        return Optional.ofNullable(first);
    }

    /** How long until a message that waits has its turn; empty when none does. */
    synchronized Optional<Duration> untilNext() {
        if (!signed.isEmpty()) {
            return Optional.of(Duration.ZERO);
        }
        return others.isEmpty() ? Optional.empty() : Optional.of(untilOther());
    }

    private Duration untilOther() {
        Duration since = Duration.ofNanos(nanos.getAsLong() - lastOtherNanos);
        Duration left = BETWEEN_OTHERS.minus(since);
        return left.isNegative() ? Duration.ZERO : left;
    }
}
