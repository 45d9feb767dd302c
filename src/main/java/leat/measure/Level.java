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
        /** Mean of 0.3 s at its highest: it was held for a moment only. */
        HIGHEST_MEAN,
        /** There is none. */
        NONE
    }

    private static final int LEAST_KEPT = 4;
    private static final double LEAST_STROKES = 5;

    /** How far the mean of one stroke is from that of many, in deviations; invented. */
    private static final double OF_STROKE = 0.03;

    /** The rule stops where creep equals noise: this part of what it keeps is left off too. */
    private static final int MORE_LEFT_OFF = 4;

    /** A pressure that creeps by more than this and more than noise has no level yet. */
    private static final double CREEP_SDS = 3;

    private static final double CREEP_SHARE = 0.01;

    /** The rule is followed where it makes the squared error at least so much smaller. */
    private static final double PLAINLY = 0.85;

    /** The mean of an exponential lies below its end by about this part of the drift. */
    private static final double OF_MEAN = 0.6;

    static Level absent(String because) {
        return new Level(Measured.absent(because), How.NONE);
    }

    /**
     * The mean of the readings of a state once they have settled. Readings at the front are left
     * off as far as the creep expected there costs more than their number is worth, then as far as
     * they plainly make the mean less certain (marginal standard error rule; White, Simulation 69
     * (1997), cited from memory).
     *
     * @param psi readings of the state, in order, the end that may be unsettled at the front
     * @param creepPsi how far each is expected to be from the level, from the pace of the climb
     * @param amplitudePsi of the climb that the state belongs to
     * @param perStroke readings in a stroke; 0 without strokes
     * @param strokeSdPsi standard deviation of the strokes, psi
     */
    static Level settled(
            double[] psi,
            double[] creepPsi,
            Noise noise,
            double amplitudePsi,
            double perStroke,
            double strokeSdPsi) {
        int still = firstStill(creepPsi, noise, perStroke, strokeSdPsi);
        int from = wholeStrokes(firstSettled(psi, still, perStroke), psi.length, perStroke);
        double blocks = blockSd(psi, from, perStroke);
        Creep creep = Creep.of(psi, from, noise, blocks, perStroke);
        double crept =
                Math.max(
                        mean(creepPsi, from, psi.length),
                        creep.isPlain() ? OF_MEAN * creep.drift() : 0);
        if (crept > CREEP_SHARE * amplitudePsi) {
            int third = psi.length - creep.third();
            double[] end = Arrays.copyOfRange(psi, third, psi.length);
            double lacking = Math.max(creep.drift(), mean(creepPsi, third, psi.length));
            double sd = Math.hypot(MedianError.sd(end, noise, 0), lacking);
            return new Level(
                    Measured.of(MedianError.median(end), Measured.NORMAL_95 * sd),
                    How.MEDIAN_OF_END);
        }
        double sd = Math.max(noise.ofMeanOnLevel(psi.length - from), blocks);
        return new Level(
                Measured.of(
                        mean(psi, from, psi.length), Measured.NORMAL_95 * Math.hypot(sd, crept)),
                How.HISTOGRAM_MODE);
    }

    /** The front that makes noise and expected creep of the mean smallest together. */
    private static int firstStill(
            double[] creepPsi, Noise noise, double perStroke, double strokeSdPsi) {
        double fewest = Math.max(LEAST_KEPT, LEAST_STROKES * perStroke);
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        double sum = 0;
        for (int i = creepPsi.length - 1; i >= 0; i--) {
            sum += creepPsi[i];
            int n = creepPsi.length - i;
            double byStrokes = OF_STROKE * strokeSdPsi * Math.sqrt(perStroke / n);
            double error = Math.hypot(Math.hypot(noise.ofMeanOnLevel(n), byStrokes), sum / n);
            if (n >= fewest && error <= least) {
                least = error;
                best = i;
            }
        }
        return best;
    }

    /**
     * How much the last third of some readings differs from the first.
     *
     * @param byNoise standard deviation of such a difference without creep
     */
    private record Creep(double drift, double byNoise, int third) {

        static Creep of(double[] psi, int from, Noise noise, double blockSd, double perStroke) {
            int third = Math.max(1, (psi.length - from) / 3);
            int strokes = perStroke < 1 ? 0 : (int) (third / perStroke);
            third = strokes > 0 ? (int) Math.rint(strokes * perStroke) : third;
            double begin = mean(psi, from, from + third);
            double finish = mean(psi, psi.length - third, psi.length);
            double ofThird = Math.hypot(noise.ofMeanOnLevel(third), blockSd * Math.sqrt(3));
            return new Creep(Math.abs(finish - begin), ofThird * Math.sqrt(2), third);
        }

        boolean isPlain() {
            return drift > CREEP_SDS * byNoise;
        }
    }

    /** Median of the few readings there are, psi. */
    static Level ofShort(double[] psi, Noise noise) {
        double sd = MedianError.sd(psi, noise, 0);
        int half = psi.length / 2;
        double drift =
                half == 0 ? 0 : mean(psi, psi.length - half, psi.length) - mean(psi, 0, half);
        double byNoise = noise.ofMeanOnLevel(Math.max(1, half)) * Math.sqrt(2);
        double creep = Math.sqrt(Math.max(0, drift * drift - byNoise * byNoise));
        return new Level(
                Measured.of(MedianError.median(psi), Measured.NORMAL_95 * Math.hypot(sd, creep)),
                How.MEDIAN_OF_SHORT);
    }

    private static int firstSettled(double[] psi, int still, double perStroke) {
        int fewest = (int) Math.max(LEAST_KEPT, LEAST_STROKES * perStroke);
        int last = psi.length - Math.max(fewest, (psi.length - still) / 4);
        int best = still;
        double least = Double.POSITIVE_INFINITY;
        double whole = 0;
        double sum = 0;
        double squares = 0;
        double origin = psi[psi.length - 1];
        for (int i = psi.length - 1; i >= still; i--) {
            double y = psi[i] - origin;
            sum += y;
            squares += y * y;
            double n = psi.length - i;
            whole = Math.max(0, squares - sum * sum / n) / (n * n);
            if (i <= last && whole <= least) {
                least = whole;
                best = i;
            }
        }
        boolean plainly = least < PLAINLY * whole;
        return plainly ? best + (psi.length - best) / MORE_LEFT_OFF : still;
    }

    /** A mean over a part of a stroke would lie beside the level. */
    private static int wholeStrokes(int from, int end, double perStroke) {
        double strokes = perStroke < 1 ? 0 : Math.floor((end - from) / perStroke);
        return strokes < 1 ? from : end - (int) Math.rint(strokes * perStroke);
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
