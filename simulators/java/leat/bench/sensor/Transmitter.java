package leat.bench.sensor;

import java.util.Random;
import leat.bench.line.Lag;

/**
 * One transducer with its loop and converter. Thread-confined; the same seed and calls give the
 * same counts. Lag and noise are invented.
 */
public final class Transmitter {

    private static final double LAG_SECONDS = 0.04;
    private static final double USUAL_NOISE_PSI = 0.3;

    private final Random random;
    private final double noisePsi;
    private final Lag seen;
    private boolean broken;

    /**
     * A transducer with the usual noise.
     *
     * @param psi the pressure it has stood at
     */
    public Transmitter(long seed, double psi) {
        this(seed, psi, USUAL_NOISE_PSI);
    }

    Transmitter(long seed, double psi, double noisePsi) {
        random = new Random(seed);
        seen = new Lag(psi);
        this.noisePsi = noisePsi;
    }

    /** Lets the transducer follow the pressure for a while. */
    public void advance(double psi, double seconds) {
        seen.follow(psi, LAG_SECONDS, seconds);
    }

    /** Breaks or mends the wire. */
    public void setBroken(boolean broken) {
        this.broken = broken;
    }

    /** Converts once: 0 to {@link Loop#FULL_COUNTS}. */
    public int convert() {
        double noise = noisePsi * random.nextGaussian();
        return broken ? 0 : Loop.counts(seen.value() + noise);
    }
}
