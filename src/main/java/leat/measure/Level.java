package leat.measure;

import java.util.Arrays;

/** Finds the pressure of one state from the readings in it. */
final class Level {

    private static final int LEAST_KEPT = 4;

    /** The rule stops where creep equals noise: this part of what it keeps is left off too. */
    private static final int MORE_LEFT_OFF = 4;

    /** A pressure that creeps by more than this and more than noise has no level yet. */
    private static final double CREEP_SDS = 3;

    private static final double CREEP_SHARE = 0.01;

    /** The rule is followed where it makes the squared error at least so much smaller. */
    private static final double PLAINLY = 0.85;

    /** The mean of an exponential lies below its end by about this part of the drift. */
    private static final double OF_MEAN = 0.6;

    private Level() {}

    /**
     * The mean of the readings of a state once they have settled. Readings at the front are left
     * off as far as they plainly make the mean less certain (marginal standard error rule; White,
     * Simulation 69 (1997), cited from memory). Where they creep all the same, the median of the
     * last third.
     *
     * @param psi readings of the state, in order, the end that may be unsettled at the front
     * @param amplitudePsi of the climb that the state belongs to
     */
    static Figure settled(double[] psi, Noise noise, double amplitudePsi) {
        int from = firstSettled(psi);
        Creep creep = Creep.of(psi, from, noise);
        double crept = creep.isPlain() ? OF_MEAN * creep.drift() : 0;
        if (crept > CREEP_SHARE * amplitudePsi) {
            int third = psi.length - creep.third();
            double[] end = Arrays.copyOfRange(psi, third, psi.length);
            double sd = Math.hypot(MedianError.sd(end, noise), creep.drift());
            return Figure.of(MedianError.median(end), Figure.NORMAL_95 * sd);
        }
        double sd = Math.hypot(noise.ofMeanOnLevel(psi.length - from), crept);
        return Figure.of(mean(psi, from, psi.length), Figure.NORMAL_95 * sd);
    }

    /**
     * How much the last third of some readings differs from the first.
     *
     * @param byNoise standard deviation of such a difference without creep
     */
    private record Creep(double drift, double byNoise, int third) {

        static Creep of(double[] psi, int from, Noise noise) {
            int third = Math.max(1, (psi.length - from) / 3);
            double begin = mean(psi, from, from + third);
            double finish = mean(psi, psi.length - third, psi.length);
            double byNoise = noise.ofMeanOnLevel(third) * Math.sqrt(2);
            return new Creep(Math.abs(finish - begin), byNoise, third);
        }

        boolean isPlain() {
            return drift > CREEP_SDS * byNoise;
        }
    }

    /** Median of the few readings there are, psi. */
    static Figure ofShort(double[] psi, Noise noise) {
        double sd = MedianError.sd(psi, noise);
        int half = psi.length / 2;
        double drift =
                half == 0 ? 0 : mean(psi, psi.length - half, psi.length) - mean(psi, 0, half);
        double byNoise = noise.ofMeanOnLevel(Math.max(1, half)) * Math.sqrt(2);
        double creep = Math.sqrt(Math.max(0, drift * drift - byNoise * byNoise));
        return Figure.of(MedianError.median(psi), Figure.NORMAL_95 * Math.hypot(sd, creep));
    }

    private static int firstSettled(double[] psi) {
        int last = psi.length - Math.max(LEAST_KEPT, psi.length / 4);
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        double whole = 0;
        double sum = 0;
        double squares = 0;
        double origin = psi[psi.length - 1];
        for (int i = psi.length - 1; i >= 0; i--) {
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
        return plainly ? best + (psi.length - best) / MORE_LEFT_OFF : 0;
    }

    private static double mean(double[] psi, int from, int end) {
        double sum = 0;
        for (int i = from; i < end; i++) {
            sum += psi[i];
        }
        return sum / (end - from);
    }
}
