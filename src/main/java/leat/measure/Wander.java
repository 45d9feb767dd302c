package leat.measure;

/**
 * Splits a steady stretch into the slow course of its mean over 1.5 s, whose standard deviation is
 * the wander, and the rest, which is strokes and noise.
 */
final class Wander {

    /** Half of the 1.5 s of the moving mean. */
    private static final double HALF_SECONDS = 0.75;

    private static final double LEAST_SECONDS = 3;

    private Wander() {}

    /** Standard deviation of the mean over 1.5 s, psi, with what noise leaves in it taken off. */
    static Measured of(Stretch steady, Noise noise) {
        if (steady.spanSeconds() < LEAST_SECONDS) {
            return Measured.absent("too short for the wander");
        }
        Stretch slow = steady.smoothed(HALF_SECONDS);
        int from = steady.indexFrom(steady.second(0) + HALF_SECONDS);
        int end = steady.indexAfter(steady.second(steady.size() - 1) - HALF_SECONDS);
        double mean = slow.mean(from, end);
        double squares = 0;
        for (int i = from; i < end; i++) {
            squares += (slow.psi(i) - mean) * (slow.psi(i) - mean);
        }
        double independent = Math.max(1, (steady.spanSeconds() - 1.5) / 1.5 + 1);
        double left = noise.ofMeanOnLevel(noise.readingsIn(2 * HALF_SECONDS));
        double noiseVariance = left * left * (1 - 1 / independent);
        double variance = squares / (end - from);
        return sd(variance, noiseVariance, left * left, independent);
    }

    /**
     * Standard deviation of the pressure about its mean over 1.5 s, over whole strokes, noise taken
     * off.
     *
     * @param noiseSd of one pressure of the stretch
     */
    static Measured ripple(Stretch steady, double noiseSd, double strokeSeconds) {
        double last = steady.second(steady.size() - 1) - HALF_SECONDS;
        double inner = last - steady.second(0) - HALF_SECONDS;
        double strokes = Math.floor(inner / strokeSeconds + 1e-6);
        if (strokes < 1) {
            return Measured.absent("too short for the mean of 1.5 s and a stroke");
        }
        Stretch slow = steady.smoothed(HALF_SECONDS);
        int end = steady.indexAfter(last);
        double readings = strokes * strokeSeconds / steady.interval();
        int from = Math.max(0, end - (int) Math.ceil(readings));
        double squares = 0;
        for (int i = from; i < end; i++) {
            double off = steady.psi(i) - slow.psi(i);
            double share = Math.min(1, readings - (end - 1 - i)); // the first counts in part
            squares += share * off * off;
        }
        double inMean = Math.max(1, 2 * HALF_SECONDS / steady.interval());
        double noiseVariance = noiseSd * noiseSd * (1 - 1 / inMean);
        return sd(squares / readings, noiseVariance, noiseSd * noiseSd, readings);
    }

    /** Root of a variance less that of the noise; its uncertainty is what noise does to it. */
    private static Measured sd(
            double variance, double noiseVariance, double oneVariance, double independent) {
        double clean = Math.max(0, variance - noiseVariance);
        double ofVariance =
                Math.sqrt((4 * clean * oneVariance + 2 * oneVariance * oneVariance) / independent);
        double least = Math.sqrt(Measured.NORMAL_95 * ofVariance);
        double value = Math.sqrt(clean);
        double by = value == 0 ? least : Measured.NORMAL_95 * ofVariance / (2 * value);
        return Measured.of(value, Math.min(least, by));
    }
}
