package leat.measure;

import java.util.Arrays;
import leat.measure.absence.Absence;
import leat.wire.State;

/**
 * The pressure that is lost over the filters while water is drawn: the median of the last seconds'
 * boosted less filtered pressure. A median, so that the second in which a jet begins or ends moves
 * nothing. Thread-confined.
 */
public final class FilterLoss {

    /** A few strokes. */
    private static final int KEPT = 9;

    /** Fewer seconds say nothing of strokes. */
    private static final int LEAST = 3;

    /** The error of a median over that of a mean, for normally scattered values. */
    private static final double MEDIAN_OVER_MEAN = 1.2533;

    private final double[] seconds = new double[KEPT];
    private int count;

    /** Takes the mean of boosted less filtered pressure of a second in which water was drawn. */
    public void add(double psi) {
        if (count == KEPT) {
            System.arraycopy(seconds, 1, seconds, 0, KEPT - 1);
            count--;
        }
        seconds[count++] = psi;
    }

    public void clear() {
        count = 0;
    }

    /** The loss, psi; absent while fewer than three seconds are known. */
    public Figure psi() {
        if (count < LEAST) {
            return Figure.absent(Absence.TOO_FEW_READINGS);
        }
        double[] sorted = Arrays.copyOf(seconds, count);
        Arrays.sort(sorted);
        double median = (sorted[(count - 1) / 2] + sorted[count / 2]) / 2;
        Moments moments = new Moments();
        for (double second : sorted) {
            moments.add(second);
        }
        double error = MEDIAN_OVER_MEAN * moments.sd() / Math.sqrt(count);
        return Figure.of(median, StudentT.factor95(count - 1) * error);
    }

    public void keep(State state) {
        double[] kept = state.keep("seconds", Arrays.copyOf(seconds, count));
        if (kept.length > KEPT) {
            throw new IllegalArgumentException("state is damaged: " + kept.length + " seconds");
        }
        count = kept.length;
        System.arraycopy(kept, 0, seconds, 0, count);
    }
}
