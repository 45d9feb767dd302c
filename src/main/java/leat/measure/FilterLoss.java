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
        double[] kept = Arrays.copyOf(seconds, count);
        Moments moments = new Moments();
        for (double second : kept) {
            moments.add(second);
        }
        return Figure.of(MedianError.median(kept), MEDIAN_OVER_MEAN * moments.doubtOfMean());
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
