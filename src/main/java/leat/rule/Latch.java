package leat.rule;

import leat.signal.Gauge;
import leat.wire.State;

/**
 * On-delay, off-delay and the memory between them: becomes active when a condition has held for the
 * whole on-delay, inactive when its opposite has held for the whole off-delay. In between, where
 * neither holds, it stays as it is: that is the deadband. Thread-confined.
 */
final class Latch {

    private final long onMicros;
    private final long offMicros;
    private boolean active;
    private long badSince = Gauge.NEVER;
    private long goodSince = Gauge.NEVER;
    private long activeSince = Gauge.NEVER;

    Latch(long onMicros, long offMicros) {
        this.onMicros = onMicros;
        this.offMicros = offMicros;
    }

    /**
     * Looks at the condition now.
     *
     * @param bad the value lies beyond the limit
     * @param good the value lies beyond the clear level
     */
    void look(long atMicros, boolean bad, boolean good) {
        look(atMicros, since(badSince, bad, atMicros), good);
    }

    /**
     * Looks at a condition whose beginning is known.
     *
     * @param since since when the value has been beyond the limit; {@link Gauge#NEVER} when it is
     *     not
     */
    void look(long atMicros, long since, boolean good) {
        boolean bad = since != Gauge.NEVER;
        badSince = since;
        goodSince = since(goodSince, good, atMicros);
        if (!active && bad && atMicros - badSince >= onMicros) {
            active = true;
            activeSince = badSince;
        } else if (active && good && atMicros - goodSince >= offMicros) {
            active = false;
        }
    }

    private static long since(long known, boolean holds, long atMicros) {
        if (!holds) {
            return Gauge.NEVER;
        }
        return known == Gauge.NEVER ? atMicros : known;
    }

    /** Nothing can be judged now: delays start afresh, what is active stays. */
    void pause() {
        badSince = Gauge.NEVER;
        goodSince = Gauge.NEVER;
    }

    /** Nothing was ever seen. */
    void reset() {
        pause();
        active = false;
    }

    /** The on-delay. */
    long onMicros() {
        return onMicros;
    }

    /** True while the condition holds and has nearly held for the whole on-delay. */
    boolean isComing(long atMicros, long withinMicros) {
        return !active && badSince != Gauge.NEVER && badSince + onMicros - atMicros <= withinMicros;
    }

    /** True while the value is good and only the off-delay keeps it active. */
    boolean isClearing() {
        return active && goodSince != Gauge.NEVER;
    }

    boolean isActive() {
        return active;
    }

    /** Since when the condition held that made it active. */
    long activeSince() {
        return activeSince;
    }

    void keep(State state) {
        active = state.keep("active", active);
        badSince = state.keep("badSince", badSince);
        goodSince = state.keep("goodSince", goodSince);
        activeSince = state.keep("activeSince", activeSince);
    }
}
