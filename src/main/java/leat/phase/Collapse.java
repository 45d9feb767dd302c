package leat.phase;

import leat.signal.TrailingMean;
import leat.wire.State;

/**
 * Notices, without a run signal, that the boosted pressure has broken down: three readings running,
 * over at least 0.3 s, below three quarters of the level of the last five seconds. A stroke's dip
 * is shorter.
 */
final class Collapse {

    private static final double SHARE = 0.75;

    /** A lower level cannot break down: an empty line only shows its noise. */
    private static final double LEAST_LEVEL_PSI = 10;

    private static final long LEAST_MICROS = 300_000;

    /** A lower level that has lasted this long is the level. */
    private static final long NEW_LEVEL_MICROS = 15_000_000;

    private static final int LEAST_READINGS = 3;

    private final TrailingMean level = new TrailingMean(5_000_000);
    private int below;
    private long sinceMicros;

    /** Looks at the next reading; true while the pressure has broken down. */
    boolean shows(long atMicros, double psi) {
        boolean isBelow =
                !level.isEmpty() && level.mean() >= LEAST_LEVEL_PSI && psi < SHARE * level.mean();
        if (!isBelow) {
            below = 0;
            level.add(atMicros, psi);
            return false;
        }
        if (below++ == 0) {
            sinceMicros = atMicros;
        }
        if (atMicros - sinceMicros > NEW_LEVEL_MICROS) {
            reset();
        }
        return hasLasted(atMicros);
    }

    /** Whether the pressure, as of the last reading, has been down for long enough. */
    boolean hasLasted(long atMicros) {
        return below >= LEAST_READINGS && atMicros - sinceMicros >= LEAST_MICROS;
    }

    /** Whether the last reading was low. */
    boolean isBegun() {
        return below > 0;
    }

    /** When the breakdown began. */
    long sinceMicros() {
        return sinceMicros;
    }

    void reset() {
        level.clear();
        below = 0;
    }

    void keep(State state) {
        state.part("level", level::keep);
        below = state.keep("below", below);
        sinceMicros = state.keep("sinceMicros", sinceMicros);
    }
}
