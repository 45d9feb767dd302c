package leat.phase;

import leat.signal.TrailingMean;
import leat.wire.State;

/**
 * Notices when the boosted pressure leaves its base: two readings running that lie above the mean
 * of the last five seconds by more than the noise explains. A slow creep takes the base along and
 * is no departure.
 */
final class Departure {

    private static final double LEAST_PSI = 4;
    private static final double MOST_PSI = 12;
    private static final double SIGMAS = 6;
    private static final double NOISE_WEIGHT = 0.02;

    private final TrailingMean base = new TrailingMean(5_000_000);
    private double noiseVariance;
    private double previous;
    private boolean hasPrevious;
    private int above;
    private long firstAboveMicros;

    /**
     * Looks at the next reading.
     *
     * @return true when this one completes a departure; {@link #sinceMicros} then says when it
     *     began
     */
    boolean shows(long atMicros, double psi) {
        boolean departed = false;
        if (!base.isEmpty() && psi > base.mean() + stepPsi()) {
            if (above++ == 0) {
                firstAboveMicros = atMicros;
            }
            departed = above >= 2;
        } else {
            above = 0;
        }
        if (hasPrevious) {
            double step = psi - previous;
            noiseVariance += NOISE_WEIGHT * (step * step / 2 - noiseVariance);
        }
        previous = psi;
        hasPrevious = true;
        base.add(atMicros, psi);
        return departed;
    }

    /** When the latest departure began. */
    long sinceMicros() {
        return firstAboveMicros;
    }

    private double stepPsi() {
        return Math.max(LEAST_PSI, Math.min(MOST_PSI, SIGMAS * Math.sqrt(noiseVariance)));
    }

    void reset() {
        base.clear();
        noiseVariance = 0;
        hasPrevious = false;
        above = 0;
    }

    void keep(State state) {
        state.part("base", base::keep);
        noiseVariance = state.keep("noiseVariance", noiseVariance);
        previous = state.keep("previous", previous);
        hasPrevious = state.keep("hasPrevious", hasPrevious);
        above = state.keep("above", above);
        firstAboveMicros = state.keep("firstAboveMicros", firstAboveMicros);
    }
}
