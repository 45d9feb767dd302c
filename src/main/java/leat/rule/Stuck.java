package leat.rule;

import leat.signal.Gauge;
import leat.wire.State;

/**
 * How long a reading has stood still to the bit, and how far the other gauge moved meanwhile. A
 * quiet transmitter behind a coarse converter stands still by nature, so a channel is given three
 * times as long as it was ever seen to stand still before it moved again, and at the most ten times
 * the limit; as long also before it was first seen to move.
 *
 * <p>A boosted gauge whose readings have always flickered needs neither the other gauge nor a run:
 * it has not stood still for six times the limit, nor for ten times as long as ever before.
 * Thread-confined.
 */
final class Stuck {

    private static final long QUIET_FACTOR = 3;
    private static final long MOST_FACTOR = 10;
    private static final long ALONE_FACTOR = 6;
    private static final long OWN_FACTOR = 10;

    /** So many like readings are none of noise that shows in the converter; own choice. */
    private static final long ALONE_READINGS = 100;

    private final double stopPsi;
    private final boolean alone;
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
    private double lowestPsi = Double.POSITIVE_INFINITY;
    private boolean atRest;
    private long sameReadings;
    private final Flicker flicker = new Flicker();

    /**
     * @param stopPsi readings at or below it do not count unless it has read less before: the lower
     *     stop of a transmitter is constant by nature
     * @param alone whether what it reads at rest is shut in, so that only the gauge itself flickers
     */
    Stuck(double stopPsi, boolean alone, Limits limits) {
        this.stopPsi = stopPsi;
        this.alone = alone;
        stuckMicros = limits.micros(Limit.SIGNAL_STUCK);
        otherPsi = limits.get(Limit.SIGNAL_STUCK_OTHER);
    }

    /**
     * Takes the next reading.
     *
     * @param teaches whether a stand-still that ends here was one of a healthy channel
     */
    void read(long atMicros, double next, boolean teaches) {
        if (seen && atRest) {
            flicker.changed(next - value);
        }
        if (seen && next == value) {
            latestMicros = atMicros;
            sameReadings++;
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
        lowestPsi = Math.min(lowestPsi, next);
        sinceMicros = atMicros;
        latestMicros = atMicros;
        sameReadings = 0;
        otherSeen = false;
    }

    void otherRead(double psi) {
        otherLow = otherSeen ? Math.min(otherLow, psi) : psi;
        otherHigh = otherSeen ? Math.max(otherHigh, psi) : psi;
        otherSeen = true;
    }

    /** The line is not running: a stand-still until now says nothing beside the other gauge. */
    void idles(long nowMicros) {
        judgedFromMicros = nowMicros;
        otherSeen = false;
    }

    /** The line has come to rest, or has left it: only at rest is what flickers the gauge's own. */
    void rests(boolean now) {
        if (now != atRest) {
            flicker.pause();
        }
        atRest = now;
    }

    /** Since when it has stood still, as far as that counts. */
    long sinceMicros() {
        return isStillAlone() ? sinceMicros : Math.max(sinceMicros, judgedFromMicros);
    }

    /** How long it has stood still, as far as that counts; 0 when the latest reading was new. */
    long stillMicros(long nowMicros) {
        return seen && latestMicros > sinceMicros ? Math.max(0, nowMicros - sinceMicros()) : 0;
    }

    /** Stands still for longer than one whose readings always flicker can. */
    boolean isStillAlone() {
        long enough = Math.max(ALONE_FACTOR * stuckMicros, OWN_FACTOR * longestStillMicros);
        return alone
                && isPressure()
                && sameReadings >= ALONE_READINGS
                && latestMicros - sinceMicros >= enough
                && flicker.isUsual();
    }

    /** The longest time for which it has been seen to stand still before. */
    long longestStillMicros() {
        return longestStillMicros;
    }

    /** True when it has read something new a moment ago, whether the line runs or not. */
    boolean moves(long nowMicros) {
        return seen && nowMicros - sinceMicros < stuckMicros;
    }

    boolean isStuck(long nowMicros) {
        return isStillAlone()
                || (stillMicros(nowMicros) >= enoughMicros()
                        && isPressure()
                        && otherSeen
                        && otherHigh - otherLow > otherPsi);
    }

    private boolean isPressure() {
        boolean aboveStop = value > stopPsi || value > lowestPsi;
        return seen && aboveStop && value < FullScale.HIGHEST_PSI;
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
        sameReadings = 0;
        flicker.pause();
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
        lowestPsi = state.keep("lowestPsi", lowestPsi);
        atRest = state.keep("atRest", atRest);
        sameReadings = state.keep("sameReadings", sameReadings);
        state.part("flicker", flicker::keep);
    }
}
