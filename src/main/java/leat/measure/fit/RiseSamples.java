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
 *
 * <p>More than 1,000 readings are put together in blocks, each the mean of its times and of its
 * pressures. The mean of m readings has the m-th part of their variance and there are m times
 * fewer, so the parameters come out with the same standard errors; what the mean moves is the
 * curvature within a block, the 24th part of (block / time constant) squared times the amplitude: 1
 * part in 2,400 for a block of a tenth of the time constant. {@link #around} narrows the readings
 * to a rise that is faster than that. A block never reaches across a gap.
 */
public final class RiseSamples {

    static final int MOST = 1_000;

    private static final double WILD_SDS = 8;
    private static final double WILD_QUANTA = 4;
    private static final double WILD_PSI = 3;
    private static final double NORMAL_QUARTILE = 0.6745;
    private static final double GAP_INTERVALS = 4;

    private static final double LEAST_QUANTUM_PSI = 2e-3;
    private static final double SAME_PSI = 1e-4;
    private static final int LEAST_STEPS = 4;

    private final double[] rawSeconds;
    private final double[] rawPsi;
    private final double[] seconds;
    private final double[] psi;
    private final double quantumPsi;
    private final double intervalSeconds;

    private RiseSamples(double[] rawSeconds, double[] rawPsi, double quantumPsi) {
        this.rawSeconds = rawSeconds;
        this.rawPsi = rawPsi;
        this.quantumPsi = quantumPsi;
        intervalSeconds = interval(rawSeconds);
        int block = (rawSeconds.length + MOST - 1) / MOST;
        if (block <= 1) {
            seconds = rawSeconds;
            psi = rawPsi;
            return;
        }
        double[] times = new double[rawSeconds.length];
        double[] means = new double[rawSeconds.length];
        int n = 0;
        for (int from = 0; from < rawSeconds.length; ) {
            int end = endOfBlock(from, block);
            times[n] = mean(rawSeconds, from, end);
            means[n++] = mean(rawPsi, from, end);
            from = end;
        }
        seconds = Arrays.copyOf(times, n);
        psi = Arrays.copyOf(means, n);
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

    /** The readings from one second to another, both counted, put together anew. */
    public RiseSamples around(double fromSecond, double toSecond) {
        int from = 0;
        while (from < rawSeconds.length && rawSeconds[from] < fromSecond) {
            from++;
        }
        int end = from;
        while (end < rawSeconds.length && rawSeconds[end] <= toSecond) {
            end++;
        }
        return new RiseSamples(
                Arrays.copyOfRange(rawSeconds, from, end),
                Arrays.copyOfRange(rawPsi, from, end),
                quantumPsi);
    }

    private int endOfBlock(int from, int block) {
        int end = from + 1;
        while (end < rawSeconds.length
                && end < from + block
                && rawSeconds[end] - rawSeconds[end - 1] < GAP_INTERVALS * intervalSeconds) {
            end++;
        }
        return end;
    }

    private static double mean(double[] values, int from, int end) {
        double sum = 0;
        for (int i = from; i < end; i++) {
            sum += values[i];
        }
        return sum / (end - from);
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

    private static double interval(double[] seconds) {
        if (seconds.length < 2) {
            return 0;
        }
        double[] steps = new double[seconds.length - 1];
        for (int i = 0; i < steps.length; i++) {
            steps[i] = seconds[i + 1] - seconds[i];
        }
        Arrays.sort(steps);
        return steps[steps.length / 2];
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

    /** Median time between two readings, before any were put together. */
    double intervalSeconds() {
        return intervalSeconds;
    }

    /** Time that one value stands for: an interval, or a block of them. */
    double blockSeconds() {
        return interval(seconds);
    }

    /** How many readings lie between two seconds. */
    int readings(double fromSecond, double toSecond) {
        int n = 0;
        for (double second : rawSeconds) {
            if (second > fromSecond && second < toSecond) {
                n++;
            }
        }
        return n;
    }

    /** Longest time without a reading that touches the time between two seconds. */
    double longestGap(double fromSecond, double toSecond) {
        double longest = 0;
        for (int i = 1; i < rawSeconds.length; i++) {
            if (rawSeconds[i] > fromSecond && rawSeconds[i - 1] < toSecond) {
                longest = Math.max(longest, rawSeconds[i] - rawSeconds[i - 1]);
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
