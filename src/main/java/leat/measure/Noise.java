package leat.measure;

import java.util.Arrays;
import java.util.Optional;

/**
 * What the readings of a stretch carry besides the pressure: white noise, the step of the converter
 * and the time between samples. Immutable.
 *
 * <p>The noise is taken as white and normal. It is read from how far each raw reading lies from the
 * line between its two neighbours (pseudo-residuals; Gasser, Sroka and Jennen-Steinmetz, Biometrika
 * 73 (1986), cited from memory), by the median of their sizes, so that a climb, strokes and single
 * wild readings hardly count. Strokes sampled fewer than about 15 times each do count and make it
 * too large, never too small.
 *
 * @param sdPsi standard deviation of one raw reading, psi, rounding by the converter included
 * @param stepPsi smallest step between readings, psi; 0 where the readings show none
 * @param intervalSeconds median time between two readings
 * @param count pseudo-residuals that it rests on, at least 8
 */
record Noise(double sdPsi, double stepPsi, double intervalSeconds, int count) {

    private static final double LEAST_INTERVAL = 1e-3;
    private static final int LEAST = 8;

    /** 1 / 0.6745: median absolute deviation to standard deviation of a normal distribution. */
    private static final double MAD_TO_SD = 1.482602218505602;

    private static final double WILD_NOISES = 6;

    /** A neighbour further away than so many median intervals is no neighbour. */
    private static final double GAP_INTERVALS = 4;

    /**
     * Autocovariance at lags 0, 1 and 2 of white noise of variance 1 after a median of three; none
     * further. Found by simulation with 20,000 runs; {@code NoiseTest} does it again.
     */
    private static final double LAG_0 = 0.4487;

    private static final double LAG_1 = 0.249;
    private static final double LAG_2 = 0.115;

    /** Of a stretch too short to tell: none is claimed. */
    static Noise unknown(Stretch curve) {
        return new Noise(0, 0, Math.max(curve.interval(), LEAST_INTERVAL), LEAST);
    }

    /** The noise of a stretch; empty for too few readings. */
    static Optional<Noise> of(Stretch curve) {
        double interval = curve.interval();
        double[] residuals = new double[Math.max(0, curve.size() - 2)];
        int n = 0;
        for (int i = 1; i + 1 < curve.size(); i++) {
            double span = curve.second(i + 1) - curve.second(i - 1);
            if (span > 0 && span <= GAP_INTERVALS * interval) {
                double share = (curve.second(i) - curve.second(i - 1)) / span;
                double line = (1 - share) * curve.raw(i - 1) + share * curve.raw(i + 1);
                double gain = 1 + (1 - share) * (1 - share) + share * share;
                residuals[n++] = Math.abs(curve.raw(i) - line) / Math.sqrt(gain);
            }
        }
        if (n < LEAST) {
            return Optional.empty();
        }
        Arrays.sort(residuals, 0, n);
        double median = (residuals[(n - 1) / 2] + residuals[n / 2]) / 2;
        double step = ConverterStep.of(curve);
        return Optional.of(new Noise(MAD_TO_SD * median, step, interval, n));
    }

    /**
     * Standard deviation of the mean of {@code n} neighbours on a level, each passed through a
     * median of three.
     */
    double ofMeanOnLevel(double n) {
        double many = Math.max(1, n);
        double gain = LAG_0 + 2 * (1 - 1 / many) * LAG_1 + 2 * Math.max(0, 1 - 2 / many) * LAG_2;
        return withRounding(sdPsi * Math.sqrt(gain / many));
    }

    /**
     * Standard deviation of the mean of {@code n} neighbours on a climb, which a median of three
     * leaves as they are.
     */
    double ofMeanOnClimb(double n) {
        return withRounding(sdPsi / Math.sqrt(Math.max(1, n)));
    }

    /** A reading further off its neighbours than this is wild, psi. */
    double farthestPsi() {
        return WILD_NOISES * Math.max(sdPsi, stepPsi);
    }

    /** Readings in a window of so many seconds, at least one. */
    double readingsIn(double seconds) {
        return Math.max(1, seconds / intervalSeconds);
    }

    /**
     * Adds the rounding that averaging does not take out: all of it for readings without noise,
     * next to none where the noise is wider than half a step (the first term of the Fourier series
     * of the rounding error under normal noise).
     */
    private double withRounding(double sd) {
        if (stepPsi == 0) {
            return sd;
        }
        double noiseSteps = sdPsi / stepPsi;
        double left =
                stepPsi
                        / Math.sqrt(12)
                        * Math.exp(-2 * Math.PI * Math.PI * noiseSteps * noiseSteps);
        return Math.hypot(sd, left);
    }
}
