package leat.rule;

import java.util.Arrays;
import leat.wire.State;

/** How much of the last sixty seconds of one kind was lost. Thread-confined. */
final class LostMinute {

    private static final int SECONDS = 60;

    private final long[] lostMicros = new long[SECONDS];
    private int next;
    private long sumMicros;

    /** A second has passed, in which so much was found to be lost. */
    void add(long micros) {
        sumMicros += micros - lostMicros[next];
        lostMicros[next] = micros;
        next = (next + 1) % SECONDS;
    }

    /** 0 to 1. */
    double share() {
        return Math.min(1, sumMicros / (SECONDS * 1e6));
    }

    void clear() {
        Arrays.fill(lostMicros, 0);
        sumMicros = 0;
    }

    void keep(State state) {
        long[] kept = state.keep("lostMicros", lostMicros);
        if (kept.length != SECONDS) {
            throw new IllegalArgumentException("state is damaged: " + kept.length + " seconds");
        }
        System.arraycopy(kept, 0, lostMicros, 0, SECONDS);
        next = Math.floorMod(state.keep("next", next), SECONDS);
        sumMicros = state.keep("sumMicros", sumMicros);
    }
}
