package leat.rule;

import java.util.Arrays;
import leat.wire.State;

/**
 * How much of the last sixty seconds of one kind was lost, or of as many as have been seen.
 * Thread-confined.
 */
final class LostMinute {

    private static final int SECONDS = 60;

    /** Of fewer, one gap alone would be a large share: none is told yet; own choice. */
    private static final int LEAST_SECONDS = 30;

    private final long[] lostMicros = new long[SECONDS];
    private int next;
    private int seen;
    private long sumMicros;

    /** A second has passed, in which so much was found to be lost. */
    void add(long micros) {
        sumMicros += micros - lostMicros[next];
        lostMicros[next] = micros;
        next = (next + 1) % SECONDS;
        seen = Math.min(SECONDS, seen + 1);
    }

    /** 0 to 1. */
    double share() {
        return seen < LEAST_SECONDS ? 0 : Math.min(1, sumMicros / (seen * 1e6));
    }

    void clear() {
        Arrays.fill(lostMicros, 0);
        seen = 0;
        sumMicros = 0;
    }

    void keep(State state) {
        long[] kept = state.keep("lostMicros", lostMicros);
        if (kept.length != SECONDS) {
            throw new IllegalArgumentException("state is damaged: " + kept.length + " seconds");
        }
        System.arraycopy(kept, 0, lostMicros, 0, SECONDS);
        next = Math.floorMod(state.keep("next", next), SECONDS);
        seen = Math.max(0, Math.min(SECONDS, state.keep("seen", seen)));
        sumMicros = state.keep("sumMicros", sumMicros);
    }
}
