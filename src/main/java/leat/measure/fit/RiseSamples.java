package leat.measure.fit;

import java.util.Arrays;

/**
 * The readings of one rise laid out for fitting: seconds from a zero of the caller's choice, psi,
 * times strictly rising. Immutable.
 *
 * <p>Taken from the raw readings and not after a median of three, which makes neighbours depend on
 * one another and clips the peak of a fast overshoot, so that a fit would state too small an
 * uncertainty. A single wild reading is left out instead. It is one that lies beyond both
 * neighbours and off the cubic through two neighbours on either side by more than 8 standard
 * deviations of the noise, 4 steps of the transducer and 3 psi (figures of this code, tested, no
 * source).
 */
public final class RiseSamples {

    private static final double WILD_SDS = 8;
    private static final double WILD_QUANTA = 4;
    private static final double WILD_PSI = 3;
    private static final double NORMAL_QUARTILE = 0.6745;

    private static final double LEAST_QUANTUM_PSI = 2e-3;
    private static final double SAME_PSI = 1e-4;
    private static final int LEAST_STEPS = 4;

    private final double[] seconds;
    private final double[] psi;
    private final double quantumPsi;

    private RiseSamples(double[] seconds, double[] psi, double quantumPsi) {
        this.seconds = seconds;
        this.psi = psi;
        this.quantumPsi = quantumPsi;
    }

    /**
     * @param seconds strictly rising
     * @param psi the reading of each
     */
    public static RiseSamples of(double[] seconds, double[] psi) {
        double quantum = quantum(psi);
        double limit = Math.max(WILD_PSI, Math.max(WILD_SDS * noise(psi), WILD_QUANTA * quantum));
        double[] keptSeconds = new double[psi.length];
        double[] keptPsi = new double[psi.length];
        int n = 0;
        for (int i = 0; i < psi.length; i++) {
            if (!wild(psi, i, limit)) {
                keptSeconds[n] = seconds[i];
                keptPsi[n++] = psi[i];
            }
        }
        return new RiseSamples(Arrays.copyOf(keptSeconds, n), Arrays.copyOf(keptPsi, n), quantum);
    }

    /** The readings from one second to another, both counted. */
    public RiseSamples around(double fromSecond, double toSecond) {
        int from = 0;
        while (from < seconds.length && seconds[from] < fromSecond) {
            from++;
        }
        int end = from;
        while (end < seconds.length && seconds[end] <= toSecond) {
            end++;
        }
        return new RiseSamples(
                Arrays.copyOfRange(seconds, from, end),
                Arrays.copyOfRange(psi, from, end),
                quantumPsi);
    }

    private static boolean wild(double[] psi, int i, double limit) {
        if (i < 2 || i + 2 >= psi.length) {
            return false;
        }
        double high = Math.max(psi[i - 1], psi[i + 1]);
        double low = Math.min(psi[i - 1], psi[i + 1]);
        double beyond = Math.max(psi[i] - high, low - psi[i]);
        double smooth = (4 * (psi[i - 1] + psi[i + 1]) - (psi[i - 2] + psi[i + 2])) / 6;
        return beyond > limit && Math.abs(psi[i] - smooth) > limit;
    }

    /** Standard deviation of the noise, from the median change between neighbours. */
    private static double noise(double[] psi) {
        if (psi.length < 2) {
            return 0;
        }
        double[] changes = new double[psi.length - 1];
        for (int i = 0; i < changes.length; i++) {
            changes[i] = Math.abs(psi[i + 1] - psi[i]);
        }
        Arrays.sort(changes);
        return changes[changes.length / 2] / (NORMAL_QUARTILE * Math.sqrt(2));
    }

    /**
     * Step of the transducer: the greatest common divisor of the differences between readings; 0
     * when there is none above 0.002 psi or too few different readings to say.
     */
    private static double quantum(double[] psi) {
        double[] sorted = psi.clone();
        Arrays.sort(sorted);
        double divisor = 0;
        int steps = 0;
        for (int i = 1; i < sorted.length; i++) {
            double step = sorted[i] - sorted[i - 1];
            if (step > SAME_PSI) {
                steps++;
                divisor = divisor(step, divisor);
                if (divisor < LEAST_QUANTUM_PSI) {
                    return 0;
                }
            }
        }
        return steps < LEAST_STEPS ? 0 : divisor;
    }

    private static double divisor(double a, double b) {
        double larger = a;
        double smaller = b;
        while (smaller > SAME_PSI) {
            double rest = larger - smaller * Math.rint(larger / smaller);
            larger = smaller;
            smaller = Math.abs(rest);
        }
        return larger;
    }

    int size() {
        return seconds.length;
    }

    double[] seconds() {
        return seconds.clone();
    }

    double[] psi() {
        return psi.clone();
    }

    double firstSecond() {
        return seconds[0];
    }

    double lastSecond() {
        return seconds[seconds.length - 1];
    }

    /** Step between neighbouring readings of the transducer, psi; 0 when none is to be seen. */
    double quantumPsi() {
        return quantumPsi;
    }

    /** Median time between two readings; at least two are there. */
    double intervalSeconds() {
        double[] steps = new double[seconds.length - 1];
        for (int i = 0; i < steps.length; i++) {
            steps[i] = seconds[i + 1] - seconds[i];
        }
        Arrays.sort(steps);
        return steps[steps.length / 2];
    }

    /** How many readings lie between two seconds. */
    int readings(double fromSecond, double toSecond) {
        int n = 0;
        for (double second : seconds) {
            if (second > fromSecond && second < toSecond) {
                n++;
            }
        }
        return n;
    }

    /** Longest time without a reading that touches the time between two seconds. */
    double longestGap(double fromSecond, double toSecond) {
        double longest = 0;
        for (int i = 1; i < seconds.length; i++) {
            if (seconds[i] > fromSecond && seconds[i - 1] < toSecond) {
                longest = Math.max(longest, seconds[i] - seconds[i - 1]);
            }
        }
        return longest;
    }

    /** From the lowest to the highest pressure. */
    double rangePsi() {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (double value : psi) {
            low = Math.min(low, value);
            high = Math.max(high, value);
        }
        return high - low;
    }
}
