package leat.measure;

import java.util.Arrays;

/**
 * The pressure of one state. Immutable.
 *
 * @param psi with its uncertainty
 * @param how the way it was found
 */
record Level(Measured psi, How how) {

    /** The ways to find a level. */
    enum How {
        /** Mean of the readings around the most frequent pressure, IEEE Std 181. */
        HISTOGRAM_MODE,
        /** Median: too few readings in the state for a histogram. */
        MEDIAN_OF_SHORT,
        /** Median of the end: the pressure was still creeping. */
        MEDIAN_OF_END,
        /** There is none. */
        NONE
    }

    private static final int LEAST_KEPT = 4;

    /** The rule stops where creep equals noise: this part of what it keeps is left off too. */
    private static final int MORE_LEFT_OFF = 4;

    /** A pressure that creeps by more than this and more than noise has no level yet. */
    private static final double CREEP_SDS = 3;

    private static final double CREEP_SHARE = 0.01;

    static Level absent(String because) {
        return new Level(Measured.absent(because), How.NONE);
    }

    /**
     * The mean of the readings of a state once they have settled: readings at the front are left
     * off as long as that makes the mean more certain (marginal standard error rule; White,
     * Simulation 69 (1997), cited from memory).
     *
     * @param psi readings of the state, in order, the end that may be unsettled at the front
     * @param amplitudePsi of the climb that the state belongs to
     * @param perStroke readings in a stroke; 0 without strokes
     */
    static Level settled(double[] psi, Noise noise, double amplitudePsi, double perStroke) {
        int from = firstSettled(psi);
        int n = psi.length - from;
        double white = noise.ofMeanOnLevel(n);
        double third = Math.max(1, n / 3);
        double begin = mean(psi, from, from + (int) third);
        double finish = mean(psi, psi.length - (int) third, psi.length);
        double drift = Math.abs(finish - begin);
        double byNoise =
                Math.hypot(noise.ofMeanOnLevel(third), blockSd(psi, from, perStroke) / 2)
                        * Math.sqrt(2);
        if (drift > CREEP_SDS * byNoise && drift > CREEP_SHARE * amplitudePsi) {
            double[] end = Arrays.copyOfRange(psi, psi.length - (int) third, psi.length);
            double sd = Math.hypot(MedianError.sd(end, noise), drift / 2);
            return new Level(
                    Measured.of(MedianError.median(end), Measured.NORMAL_95 * sd),
                    How.MEDIAN_OF_END);
        }
        double creep = Math.sqrt(Math.max(0, drift * drift - byNoise * byNoise)) / 2;
        double blocks = blockSd(psi, from, perStroke);
        double sd = Math.hypot(Math.max(white, blocks), creep);
        return new Level(
                Measured.of(mean(psi, from, psi.length), Measured.NORMAL_95 * sd),
                How.HISTOGRAM_MODE);
    }

    /** Median of the few readings there are, psi. */
    static Level ofShort(double[] psi, Noise noise) {
        double sd = MedianError.sd(psi, noise);
        int half = psi.length / 2;
        double drift =
                half == 0 ? 0 : mean(psi, psi.length - half, psi.length) - mean(psi, 0, half);
        double byNoise = noise.ofMeanOnLevel(Math.max(1, half)) * Math.sqrt(2);
        double creep = Math.sqrt(Math.max(0, drift * drift - byNoise * byNoise));
        return new Level(
                Measured.of(MedianError.median(psi), Measured.NORMAL_95 * Math.hypot(sd, creep)),
                How.MEDIAN_OF_SHORT);
    }

    private static int firstSettled(double[] psi) {
        int last = psi.length - Math.max(LEAST_KEPT, psi.length / 4);
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        double sum = 0;
        double squares = 0;
        double origin = psi[psi.length - 1];
        for (int i = psi.length - 1; i >= 0; i--) {
            double y = psi[i] - origin;
            sum += y;
            squares += y * y;
            double n = psi.length - i;
            double error = Math.max(0, squares - sum * sum / n) / (n * n);
            if (i <= last && error <= least) {
                least = error;
                best = i;
            }
        }
        return best == 0 ? 0 : best + (psi.length - best) / MORE_LEFT_OFF;
    }

    /** Standard error of the mean from the scatter of the means of whole strokes. */
    private static double blockSd(double[] psi, int from, double perStroke) {
        int blocks = perStroke < 1 ? 0 : (int) ((psi.length - from) / perStroke);
        if (blocks < 3) {
            return 0;
        }
        double[] means = new double[blocks];
        for (int i = 0; i < blocks; i++) {
            int a = from + (int) Math.round(i * perStroke);
            int b = Math.min(psi.length, from + (int) Math.round((i + 1) * perStroke));
            means[i] = mean(psi, a, b);
        }
        double middle = mean(means, 0, blocks);
        double squares = 0;
        for (double mean : means) {
            squares += (mean - middle) * (mean - middle);
        }
        return Math.sqrt(squares / (blocks - 1) / blocks);
    }

    private static double mean(double[] psi, int from, int end) {
        double sum = 0;
        for (int i = from; i < end; i++) {
            sum += psi[i];
        }
        return sum / (end - from);
    }
}
