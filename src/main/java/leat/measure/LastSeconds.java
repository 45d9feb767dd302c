package leat.measure;

import java.util.Arrays;
import leat.wire.State;

/** The means of the last few seconds of a pressure, for a mean and its doubt. Thread-confined. */
final class LastSeconds {

    private static final int KEPT = 5;

    private final double[] means = new double[KEPT];
    private int count;

    void add(double mean) {
        System.arraycopy(means, 0, means, 1, KEPT - 1);
        means[0] = mean;
        count = Math.min(KEPT, count + 1);
    }

    void clear() {
        count = 0;
    }

    boolean isEmpty() {
        return count == 0;
    }

    /** Their own mean with its doubt; not to be asked while empty. */
    Figure figure() {
        return figure(mean());
    }

    /** Mean of the seconds that are known; 0 of none. */
    double mean() {
        double sum = 0;
        for (int i = 0; i < count; i++) {
            sum += means[i];
        }
        return count == 0 ? 0 : sum / count;
    }

    /**
     * Around {@code mean}, the doubt that the scatter of the seconds leaves: a pressure that still
     * moves has a large one.
     */
    Figure figure(double mean) {
        if (count < 2) {
            return Figure.of(mean);
        }
        Moments seconds = new Moments();
        for (int i = 0; i < count; i++) {
            seconds.add(means[i]);
        }
        return Figure.of(mean, seconds.doubtOfMean());
    }

    void keep(State state) {
        double[] kept = state.keep("means", Arrays.copyOf(means, count));
        if (kept.length > KEPT) {
            throw new IllegalArgumentException("state is damaged: " + kept.length + " means");
        }
        count = kept.length;
        System.arraycopy(kept, 0, means, 0, count);
    }
}
