package leat.measure;

import java.util.Arrays;
import leat.measure.absence.Absence;

/**
 * A stretch of a curve laid out for measuring: times in seconds from a zero of the caller's choice
 * and pressures passed through a median of three, which takes out a single wild reading and leaves
 * a climb as it is.
 */
final class Stretch {

    private final double[] seconds;
    private final double[] psi;
    private final double[] raw;

    private Stretch(double[] seconds, double[] psi, double[] raw) {
        this.seconds = seconds;
        this.psi = psi;
        this.raw = raw;
    }

    /**
     * The samples of {@code curve} from one time to another, both counted, relative to {@code
     * zeroMicros}.
     */
    static Stretch of(Curve curve, long fromMicros, long toMicros, long zeroMicros) {
        int first = curve.indexFrom(fromMicros);
        int end = curve.indexFrom(toMicros + 1);
        double[] seconds = new double[Math.max(0, end - first)];
        double[] psi = new double[seconds.length];
        double[] raw = new double[seconds.length];
        for (int i = 0; i < seconds.length; i++) {
            seconds[i] = (curve.at(first + i) - zeroMicros) / 1e6;
            psi[i] = medianOfThree(curve, first + i);
            raw[i] = curve.psi(first + i);
        }
        return new Stretch(seconds, psi, raw);
    }

    private static double medianOfThree(Curve curve, int i) {
        double b = curve.psi(i);
        if (i == 0 || i == curve.size() - 1) {
            return b;
        }
        double a = curve.psi(i - 1);
        double c = curve.psi(i + 1);
        return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    }

    /**
     * The same with times averaged as the pressures are: under irregular sampling a mean pressure
     * of a climb belongs to the mean of its times.
     */
    Stretch smoothedInTime(double halfSeconds) {
        Stretch times = new Stretch(seconds, seconds, raw).smoothed(halfSeconds);
        return new Stretch(times.psi, smoothed(halfSeconds).psi, raw);
    }

    /** The same with each pressure averaged over so many seconds to either side. */
    Stretch smoothed(double halfSeconds) {
        double[] means = new double[psi.length];
        int from = 0;
        int end = 0;
        double sum = 0;
        for (int i = 0; i < psi.length; i++) {
            while (end < psi.length && seconds[end] <= seconds[i] + halfSeconds) {
                sum += psi[end++];
            }
            while (seconds[from] < seconds[i] - halfSeconds) {
                sum -= psi[from++];
            }
            means[i] = sum / (end - from);
        }
        return new Stretch(seconds, means, raw);
    }

    /**
     * The raw readings with single wild ones replaced by their median of three. Unlike that median
     * it leaves crests that are sampled slowly as they are: a reading is wild when it lies further
     * outside the two readings to either side than these lie apart, and than noise goes.
     *
     * @param least how far noise goes, psi
     */
    Stretch cleaned(double least) {
        double[] clean = raw.clone();
        for (int i = 2; i + 2 < raw.length; i++) {
            double low =
                    Math.min(Math.min(raw[i - 2], raw[i - 1]), Math.min(raw[i + 1], raw[i + 2]));
            double high =
                    Math.max(Math.max(raw[i - 2], raw[i - 1]), Math.max(raw[i + 1], raw[i + 2]));
            double beyond = Math.max(raw[i] - high, low - raw[i]);
            if (beyond > least && beyond > high - low) {
                clean[i] = psi[i];
            }
        }
        return new Stretch(seconds, clean, raw);
    }

    /** The samples from one second to another, both counted. */
    Stretch part(double fromSecond, double toSecond) {
        int first = indexFrom(fromSecond);
        int end = Math.max(first, indexAfter(toSecond));
        return new Stretch(
                Arrays.copyOfRange(seconds, first, end),
                Arrays.copyOfRange(psi, first, end),
                Arrays.copyOfRange(raw, first, end));
    }

    /** Index of the first sample at or after a second; {@link #size} when there is none. */
    int indexFrom(double second) {
        int index = Arrays.binarySearch(seconds, second);
        return index < 0 ? -index - 1 : index;
    }

    /** Index of the first sample after a second; {@link #size} when there is none. */
    int indexAfter(double second) {
        int index = Arrays.binarySearch(seconds, second);
        return index < 0 ? -index - 1 : index + 1;
    }

    /** Mean of the pressures from index to index, the latter not counted. */
    double mean(int from, int end) {
        double sum = 0;
        for (int i = from; i < end; i++) {
            sum += psi[i];
        }
        return sum / (end - from);
    }

    int size() {
        return seconds.length;
    }

    double second(int i) {
        return seconds[i];
    }

    double psi(int i) {
        return psi[i];
    }

    /** The reading itself, before median and averaging. */
    double raw(int i) {
        return raw[i];
    }

    /** Time from the first sample to the last; 0 for fewer than two. */
    double spanSeconds() {
        return seconds.length < 2 ? 0 : seconds[seconds.length - 1] - seconds[0];
    }

    /** A copy of the pressures. */
    double[] pressures() {
        return psi.clone();
    }

    /** Median of the samples from one time to another; absent when there is none. */
    Figure median(double fromSecond, double toSecond, Absence absentBecause) {
        double[] chosen = part(fromSecond, toSecond).psi;
        int n = chosen.length;
        if (n == 0) {
            return Figure.absent(absentBecause);
        }
        Arrays.sort(chosen);
        return Figure.of(n % 2 == 1 ? chosen[n / 2] : (chosen[n / 2 - 1] + chosen[n / 2]) / 2);
    }

    /**
     * First index from {@code start} on at which the pressure is at or above a level; -1 for none.
     */
    int firstAtOrAbove(double level, int start) {
        for (int i = start; i < psi.length; i++) {
            if (psi[i] >= level) {
                return i;
            }
        }
        return -1;
    }

    /** Last index before {@code end} at which the pressure is below a level; -1 for none. */
    int lastBelow(double level, int end) {
        for (int i = end - 1; i >= 0; i--) {
            if (psi[i] < level) {
                return i;
            }
        }
        return -1;
    }

    /**
     * First index from {@code start} on that lies above a level as the next one does; -1 for none.
     */
    int firstTwoAbove(double level, int start) {
        for (int i = start; i + 1 < psi.length; i++) {
            if (psi[i] > level && psi[i + 1] > level) {
                return i;
            }
        }
        return -1;
    }

    /** Last index before {@code end} at which the pressure is not above a level; -1 for none. */
    int lastAtOrBelow(double level, int end) {
        for (int i = end - 1; i >= 0; i--) {
            if (psi[i] <= level) {
                return i;
            }
        }
        return -1;
    }

    /** Last index before {@code end} at which the pressure is above a level; -1 for none. */
    int lastAbove(double level, int end) {
        for (int i = end - 1; i >= 0; i--) {
            if (psi[i] > level) {
                return i;
            }
        }
        return -1;
    }

    /** When the line from sample {@code i} to the next crosses a level that lies between them. */
    double crossing(int i, double level) {
        double step = psi[i + 1] - psi[i];
        double share = step == 0 ? 0 : (level - psi[i]) / step;
        return seconds[i] + share * (seconds[i + 1] - seconds[i]);
    }

    /** Longest time between two neighbours from index to index. */
    double longestGap(int from, int to) {
        double longest = 0;
        for (int i = Math.max(from, 0); i < to; i++) {
            longest = Math.max(longest, seconds[i + 1] - seconds[i]);
        }
        return longest;
    }

    /** Median time between two neighbours; 0 for fewer than two samples. */
    double interval() {
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

    /** Index of the lowest pressure up to a second, the last of equals; -1 when there is none. */
    int lowest(double untilSecond) {
        int lowest = -1;
        for (int i = 0; i < psi.length && seconds[i] <= untilSecond; i++) {
            if (lowest < 0 || psi[i] <= psi[lowest]) {
                lowest = i;
            }
        }
        return lowest;
    }

    double highest(int from) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = from; i < psi.length; i++) {
            highest = Math.max(highest, psi[i]);
        }
        return highest;
    }
}
