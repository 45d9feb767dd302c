package leat.rule;

import leat.signal.Gauge;
import leat.wire.State;

/**
 * How long a reading has stood still to the bit, and how far the other gauge moved meanwhile. A
 * quiet transmitter behind a coarse converter stands still by nature, so a channel is given three
 * times as long as it was ever seen to stand still before it moved again, and at the most ten times
 * the limit; as long also before it was first seen to move. Thread-confined.
 */
final class Stuck {

    private static final double HIGHEST_PSI = 200;
    private static final long QUIET_FACTOR = 3;
    private static final long MOST_FACTOR = 10;

    private final double lowestPsi;
    private final long stuckMicros;
    private final double otherPsi;
    private boolean seen;
    private boolean hasMoved;
    private long longestStillMicros;
    private double value;
    private long sinceMicros;
    private long latestMicros;
    private long judgedFromMicros = Gauge.NEVER;
    private boolean otherSeen;
    private double otherLow;
    private double otherHigh;

    /**
     * @param lowestPsi readings at or below it do not count: the lower stop of a transmitter is
     *     constant by nature
     */
    Stuck(double lowestPsi, Limits limits) {
        this.lowestPsi = lowestPsi;
        stuckMicros = limits.micros(Limit.SIGNAL_STUCK);
        otherPsi = limits.get(Limit.SIGNAL_STUCK_OTHER);
    }

    /**
     * Takes the next reading.
     *
     * @param teaches whether a stand-still that ends here was one of a healthy channel
     */
    void read(long atMicros, double next, boolean teaches) {
        if (seen && next == value) {
            latestMicros = atMicros;
            return;
        }
        if (seen) {
            hasMoved = true;
            longestStillMicros =
                    teaches
                            ? Math.max(longestStillMicros, latestMicros - sinceMicros)
                            : longestStillMicros;
        }
        seen = true;
        value = next;
        sinceMicros = atMicros;
        latestMicros = atMicros;
        otherSeen = false;
    }

    void otherRead(double psi) {
        otherLow = otherSeen ? Math.min(otherLow, psi) : psi;
        otherHigh = otherSeen ? Math.max(otherHigh, psi) : psi;
        otherSeen = true;
    }

    /** The line is not running: a stand-still until now says nothing. */
    void rests(long nowMicros) {
        judgedFromMicros = nowMicros;
        otherSeen = false;
    }

    /** Since when it has stood still while the line ran. */
    long sinceMicros() {
        return Math.max(sinceMicros, judgedFromMicros);
    }

    /** How long it has stood still while the line ran; 0 when the latest reading was new. */
    long stillMicros(long nowMicros) {
        return seen && latestMicros > sinceMicros ? Math.max(0, nowMicros - sinceMicros()) : 0;
    }

    /** True when it has read something new a moment ago, whether the line runs or not. */
    boolean moves(long nowMicros) {
        return seen && nowMicros - sinceMicros < stuckMicros;
    }

    boolean isStuck(long nowMicros) {
        return stillMicros(nowMicros) >= enoughMicros()
                && value > lowestPsi
                && value < HIGHEST_PSI
                && otherSeen
                && otherHigh - otherLow > otherPsi;
    }

    private long enoughMicros() {
        long most = MOST_FACTOR * stuckMicros;
        return hasMoved
                ? Math.min(most, Math.max(stuckMicros, QUIET_FACTOR * longestStillMicros))
                : most;
    }

    /** Begins afresh; how quiet the channel is stays known. */
    void forget() {
        seen = false;
        judgedFromMicros = Gauge.NEVER;
        otherSeen = false;
    }

    void keep(State state) {
        seen = state.keep("seen", seen);
        hasMoved = state.keep("hasMoved", hasMoved);
        longestStillMicros = state.keep("longestStillMicros", longestStillMicros);
        value = state.keep("value", value);
        sinceMicros = state.keep("sinceMicros", sinceMicros);
        latestMicros = state.keep("latestMicros", latestMicros);
        judgedFromMicros = state.keep("judgedFromMicros", judgedFromMicros);
        otherSeen = state.keep("otherSeen", otherSeen);
        otherLow = state.keep("otherLow", otherLow);
        otherHigh = state.keep("otherHigh", otherHigh);
    }
}
