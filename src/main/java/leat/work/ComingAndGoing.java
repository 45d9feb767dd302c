package leat.work;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Optional;
import java.util.function.LongSupplier;

/**
 * Something that is lost and comes back, as a log is to hear of it: five losses within ten minutes,
 * each but the last with its return: what is said last must not be that it is back, for the next
 * loss is not said. More of them are counted, and the next loss after the ten minutes says how
 * many. A loose plug would write two lines a second for days. The words are the caller's.
 *
 * <p>Thread-safe.
 */
public final class ComingAndGoing {

    private static final int SAID = 5;
    private static final Duration WITHIN = Duration.ofMinutes(10);

    private final LongSupplier nanos;
    private long sinceNanos;
    private int said;
    private long unsaid;
    private boolean isReturnSaid;

    /**
     * @param nanos monotonic clock, as {@code System::nanoTime}
     */
    public ComingAndGoing(LongSupplier nanos) {
        this.nanos = requireNonNull(nanos, "nanos");
    }

    public ComingAndGoing() {
        this(System::nanoTime);
    }

    /**
     * It is lost.
     *
     * @return what is to follow in the line, mostly nothing; empty when the log is not to hear of
     *     it
     */
    public synchronized Optional<String> lost() {
        long now = nanos.getAsLong();
        if (said == 0 || now - sinceNanos >= WITHIN.toNanos()) {
            sinceNanos = now;
            said = 0;
        }
        isReturnSaid = said + 1 < SAID;
        if (said == SAID) {
            unsaid++;
            return Optional.empty();
        }
        said++;
        String before = unsaid == 0 ? "" : "; " + unsaid + " losses before this one were not said";
        unsaid = 0;
        return Optional.of(
                said < SAID ? before : before + "; further ones within 10 min are only counted");
    }

    /** It is back: whether the log is to hear of it. */
    public synchronized boolean isReturnNews() {
        return isReturnSaid;
    }
}
