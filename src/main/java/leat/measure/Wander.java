package leat.measure;

import leat.measure.absence.Absence;

/**
 * Splits a steady stretch into the slow course of its mean over 1.5 s, whose standard deviation is
 * the wander, and the rest, which is strokes and noise.
 */
final class Wander {

    /** Half of the 1.5 s of the moving mean. */
    private static final double HALF_SECONDS = 0.75;

    /** What few samples in a stroke do to its variance, by the cube of their number; simulated. */
    private static final double ON_GRID = 7;

    private static final double LEAST_SECONDS = 3;

    private Wander() {}

    /** Standard deviation of the mean over 1.5 s, psi, with what noise leaves in it taken off. */
    static Figure of(Stretch steady, Noise noise) {
        return of(steady, new double[steady.size()], noise);
    }

    /**
     * Likewise without what the pressure does along with the inlet.
     *
     * @param inlet of about the same time
     */
    static Figure unrest(Stretch steady, Stretch inlet, Noise noise) {
        if (inlet.spanSeconds() < LEAST_SECONDS) {
            return Figure.absent(Absence.TOO_SHORT_FOR_WANDER);
        }
        double[] slow = means(inlet);
        double[] beside = new double[steady.size()];
        for (int i = 0; i < beside.length; i++) {
            int at = Math.min(inlet.indexFrom(steady.second(i)), slow.length - 1);
            beside[i] = slow[at];
        }
        return of(steady, beside, noise);
    }

    /**
     * @param beside what it may follow, at each of its samples
     */
    private static Figure of(Stretch steady, double[] beside, Noise noise) {
        if (steady.spanSeconds() < LEAST_SECONDS) {
            return Figure.absent(Absence.TOO_SHORT_FOR_WANDER);
        }
        double[] slow = means(steady);
        int from = steady.indexFrom(steady.second(0) + HALF_SECONDS);
        int end = steady.indexAfter(steady.second(steady.size() - 1) - HALF_SECONDS);
        if (from >= end) {
            return Figure.absent(Absence.GAP_IN_WANDER);
        }
        double independent = Math.max(1, (steady.spanSeconds() - 1.5) / 1.5 + 1);
        double left = noise.ofMeanOnLevel(noise.readingsIn(2 * HALF_SECONDS));
        double noiseVariance = left * left * (1 - 1 / independent);
        PairSums sums = PairSums.NONE;
        for (int i = from; i < end; i++) {
            sums = sums.and(beside[i] - beside[from], slow[i] - slow[from]);
        }
        double variance = sums.centred().squaresAlone() / (end - from);
        return sd(variance, noiseVariance, left * left, independent);
    }

    /**
     * Standard deviation of the pressure about its mean over 1.5 s, over whole strokes, noise taken
     * off.
     *
     * @param noiseSd of one pressure of the stretch
     */
    static Figure ripple(Stretch steady, double noiseSd, double strokeSeconds) {
        double last = steady.second(steady.size() - 1) - HALF_SECONDS;
        double inner = last - steady.second(0) - HALF_SECONDS;
        double strokes = Math.floor(inner / strokeSeconds + 1e-6);
        if (strokes < 1) {
            return Figure.absent(Absence.TOO_SHORT_FOR_MEAN);
        }
        double[] slow = means(steady);
        int end = steady.indexAfter(last);
        double readings = strokes * strokeSeconds / steady.interval();
        if (readings > end) {
            return Figure.absent(Absence.GAP_AMONG_STROKES);
        }
        int from = Math.max(0, end - (int) Math.ceil(readings));
        double squares = 0;
        for (int i = from; i < end; i++) {
            double off = steady.psi(i) - slow[i];
            double share = Math.min(1, readings - (end - 1 - i)); // the first counts in part
            squares += share * off * off;
        }
        double inMean = Math.max(1, 2 * HALF_SECONDS / steady.interval());
        double noiseVariance = noiseSd * noiseSd * (1 - 1 / inMean);
        double angle = 2 * Math.PI * HALF_SECONDS / strokeSeconds;
        double gain =
                1 - Math.sin(angle) / angle; // of the strokes, and the noise that beats with them
        Figure sd = sd(squares / readings, noiseVariance, square(noiseSd * gain), readings);
        double byGrid = ON_GRID * sd.get() * Math.pow(steady.interval() / strokeSeconds, 3);
        return Figure.of(sd.get(), Math.hypot(sd.doubt(), byGrid));
    }

    /**
     * Mean over 1.5 s around each sample. Each stands for the time half an interval to either side,
     * so that those at the ends of the 1.5 s count in part.
     */
    private static double[] means(Stretch steady) {
        double interval = steady.interval();
        double[] sums = new double[steady.size() + 1];
        for (int i = 0; i < steady.size(); i++) {
            sums[i + 1] = sums[i] + steady.psi(i);
        }
        double[] means = new double[steady.size()];
        for (int i = 0; i < means.length; i++) {
            double at = steady.second(i);
            int from = steady.indexFrom(at - HALF_SECONDS + interval / 2);
            int end = Math.max(from, steady.indexAfter(at + HALF_SECONDS - interval / 2));
            double sum = sums[end] - sums[from];
            double weight = end - from;
            for (int j = from - 1; j >= 0 && part(at, steady.second(j), interval) > 0; j--) {
                sum += part(at, steady.second(j), interval) * steady.psi(j);
                weight += part(at, steady.second(j), interval);
            }
            for (int j = end; j < means.length && part(at, steady.second(j), interval) > 0; j++) {
                sum += part(at, steady.second(j), interval) * steady.psi(j);
                weight += part(at, steady.second(j), interval);
            }
            means[i] = sum / weight;
        }
        return means;
    }

    private static double square(double x) {
        return x * x;
    }

    private static double part(double middle, double second, double interval) {
        return Math.min(1, (HALF_SECONDS + interval / 2 - Math.abs(second - middle)) / interval);
    }

    /** Root of a variance less that of the noise; its uncertainty is what noise does to it. */
    static Figure sd(
            double variance, double noiseVariance, double oneVariance, double independent) {
        double clean = Math.max(0, variance - noiseVariance);
        double ofVariance =
                Math.sqrt((4 * clean * oneVariance + 2 * oneVariance * oneVariance) / independent);
        double least = Math.sqrt(Figure.NORMAL_95 * ofVariance);
        double value = Math.sqrt(clean);
        double by = value == 0 ? least : Figure.NORMAL_95 * ofVariance / (2 * value);
        return Figure.of(value, Math.min(least, by));
    }
}
