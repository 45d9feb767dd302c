package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.function.LongSupplier;
import leat.store.Message;

/**
 * When a route gives a message up. Its age alone is not enough: a clock that was set by years, or a
 * computer that was off over the holidays, would make every message old at once. So the route must
 * also have been tried in vain for an hour (or for the whole age where that is shorter) in this
 * run.
 *
 * @param giveUpAfter age of a message, from its event on, after which it is given up
 * @param nowMicros the clock that stamps events, microseconds UTC
 */
public record Patience(Duration giveUpAfter, LongSupplier nowMicros) {

    private static final Duration TRIED_AT_LEAST = Duration.ofHours(1);
    private static final long NANOS_PER_MICRO = 1_000;

    public Patience {
        requireNonNull(giveUpAfter, "giveUpAfter");
        requireNonNull(nowMicros, "nowMicros");
    }

    /** Never gives up. */
    public static Patience endless() {
        return new Patience(Duration.ofNanos(Long.MAX_VALUE), () -> 0);
    }

    /**
     * @param failing how long the route has been failing without a break
     */
    boolean isOver(Message message, Duration failing) {
        long ageMicros = nowMicros.getAsLong() - message.atMicros();
        return ageMicros >= giveUpAfter.toNanos() / NANOS_PER_MICRO
                && (failing.compareTo(TRIED_AT_LEAST) >= 0 || failing.compareTo(giveUpAfter) >= 0);
    }

    /** The age in words. */
    String words() {
        return giveUpAfter.toHours() > 0
                ? giveUpAfter.toHours() + " h"
                : giveUpAfter.toSeconds() + " s";
    }
}
