package leat.rule;

import leat.signal.Gauge;
import leat.wire.State;

/**
 * On-delay, off-delay and the memory between them: becomes active when a condition has held for the
 * whole on-delay, inactive when its opposite has held for the whole off-delay. In between, where
 * neither holds, it stays as it is: that is the deadband. Time that does not count can be left out.
 * Thread-confined.
 */
final class Latch {

    private final long onMicros;
    private final long offMicros;
    private boolean active;
    private long badSince = Gauge.NEVER;
    private long goodSince = Gauge.NEVER;
    private long activeSince = Gauge.NEVER;
    private long lastMicros = Gauge.NEVER;

    /** Time since either began that did not count. */
    private long leftOutMicros;

    /** Time that counted since the last pause. */
    private long countedMicros;

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
        boolean begins = badSince == Gauge.NEVER && goodSince == Gauge.NEVER;
        leftOutMicros = begins || bad != (badSince != Gauge.NEVER) ? 0 : leftOutMicros;
        countedMicros += lastMicros == Gauge.NEVER ? 0 : atMicros - lastMicros;
        lastMicros = atMicros;
        badSince = since;
        goodSince = since(goodSince, good, atMicros);
        if (!active && bad && counted(badSince, atMicros) >= onMicros) {
            active = true;
            activeSince = badSince;
        } else if (active && good && counted(goodSince, atMicros) >= offMicros) {
            active = false;
        }
    }

    /** A while until now does not count: neither delay grows, and what has begun goes on. */
    void leaveOut(long atMicros) {
        leftOutMicros += lastMicros == Gauge.NEVER ? 0 : atMicros - lastMicros;
        lastMicros = atMicros;
    }

    private long counted(long since, long atMicros) {
        return atMicros - since - leftOutMicros;
    }

    /** The condition is known to hold, for the whole of a run by its mean. */
    void activate(long since) {
        activeSince = active ? activeSince : since;
        active = true;
        goodSince = Gauge.NEVER;
    }

    /** The opposite is known to hold. */
    void deactivate() {
        active = false;
        badSince = Gauge.NEVER;
    }

    /** Whether it has looked for long enough since the last pause to become inactive by itself. */
    boolean couldClear() {
        return countedMicros > offMicros;
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
        lastMicros = Gauge.NEVER;
        countedMicros = 0;
        leftOutMicros = 0;
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
        return !active
                && badSince != Gauge.NEVER
                && onMicros - counted(badSince, atMicros) <= withinMicros;
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
        lastMicros = state.keep("lastMicros", lastMicros);
        leftOutMicros = state.keep("leftOutMicros", leftOutMicros);
        countedMicros = state.keep("countedMicros", countedMicros);
    }
}
