package leat.rule;

import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * How long a reading has stood still to the bit, and how far the other gauge moved meanwhile. A
 * channel that has never been seen to move may just be quiet, and is given ten times as long.
 * Readings at or below a transmitter's lower stop are constant by nature and do not count.
 * Thread-confined.
 */
final class Stuck {

    private static final double LOWEST_PSI = -2;
    private static final double HIGHEST_PSI = 200;
    private static final int NEVER_MOVED_FACTOR = 10;

    private final long stuckMicros;
    private final double otherPsi;
    private boolean seen;
    private boolean hasMoved;
    private double value;
    private long sinceMicros;
    private long latestMicros;
    private boolean otherSeen;
    private double otherLow;
    private double otherHigh;

    Stuck(Limits limits) {
        stuckMicros = limits.micros(Limit.SIGNAL_STUCK);
        otherPsi = limits.get(Limit.SIGNAL_STUCK_OTHER);
    }

    void read(long atMicros, double next) {
        latestMicros = atMicros;
        if (seen && next == value) {
            return;
        }
        hasMoved |= seen;
        seen = true;
        value = next;
        sinceMicros = atMicros;
        otherSeen = false;
    }

    void otherRead(double psi) {
        otherLow = otherSeen ? Math.min(otherLow, psi) : psi;
        otherHigh = otherSeen ? Math.max(otherHigh, psi) : psi;
        otherSeen = true;
    }

    /** 0 while it moves. */
    long standsStillMicros(long nowMicros) {
        return seen && latestMicros > sinceMicros ? Math.max(0, nowMicros - sinceMicros) : 0;
    }

    boolean isStuck(long nowMicros) {
        long enough = hasMoved ? stuckMicros : stuckMicros * NEVER_MOVED_FACTOR;
        return standsStillMicros(nowMicros) >= enough
                && value > LOWEST_PSI
                && value < HIGHEST_PSI
                && otherSeen
                && otherHigh - otherLow > otherPsi;
    }

    void forget() {
        seen = false;
        otherSeen = false;
    }

    void save(StateWriter out) {
        out.putBoolean(seen);
        out.putBoolean(hasMoved);
        out.putDouble(value);
        out.putLong(sinceMicros);
        out.putLong(latestMicros);
        out.putBoolean(otherSeen);
        out.putDouble(otherLow);
        out.putDouble(otherHigh);
    }

    void load(StateReader in) {
        seen = in.getBoolean();
        hasMoved = in.getBoolean();
        value = in.getDouble();
        sinceMicros = in.getLong();
        latestMicros = in.getLong();
        otherSeen = in.getBoolean();
        otherLow = in.getDouble();
        otherHigh = in.getDouble();
    }
}
