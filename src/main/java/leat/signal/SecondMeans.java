package leat.signal;

import java.util.Arrays;
import leat.wire.State;

/**
 * The one-second means of a pressure at the last ticks, for telling whether it still moves.
 * Thread-confined.
 */
public final class SecondMeans {

    private static final int KEPT = 10;

    private final double[] means = new double[KEPT];
    private int count;

    /** Takes the mean of the second that has just passed. */
    public void add(double mean) {
        if (count == KEPT) {
            System.arraycopy(means, 1, means, 0, KEPT - 1);
            count--;
        }
        means[count++] = mean;
    }

    public void clear() {
        count = 0;
    }

    public int count() {
        return count;
    }

    /**
     * How fast the pressure falls, psi per second: the mean of the last half of {@code seconds}
     * against the half before; negative while it climbs.
     *
     * @param seconds even, 2 to 10
     * @return positive infinity while fewer seconds than that are known
     */
    public double fallPerSecond(int seconds) {
        if (count < seconds) {
            return Double.POSITIVE_INFINITY;
        }
        int half = seconds / 2;
        double late = 0;
        double early = 0;
        for (int i = 0; i < half; i++) {
            late += means[count - 1 - i];
            early += means[count - 1 - half - i];
        }
        return (early - late) / half / half;
    }

    /**
     * By how much the pressure has climbed: the mean of the last half of {@code seconds} less that
     * of the half before, psi; negative infinity while fewer seconds are known.
     *
     * @param seconds even, 2 to 10
     */
    public double climb(int seconds) {
        return -fallPerSecond(seconds) * seconds / 2;
    }

    /** Whether each of the last so many means lies below the one before by more than a share. */
    public boolean fellEach(int seconds, double share) {
        if (count <= seconds) {
            return false;
        }
        for (int i = count - seconds; i < count; i++) {
            if (means[i - 1] - means[i] < share * Math.abs(means[i - 1])
                    || means[i] >= means[i - 1]) {
                return false;
            }
        }
        return true;
    }

    /** Highest minus lowest of the last so many seconds; infinity while fewer are known. */
    public double spread(int seconds) {
        if (count < seconds) {
            return Double.POSITIVE_INFINITY;
        }
        double low = means[count - 1];
        double high = low;
        for (int i = count - seconds; i < count; i++) {
            low = Math.min(low, means[i]);
            high = Math.max(high, means[i]);
        }
        return high - low;
    }

    public void keep(State state) {
        double[] kept = state.keep("means", Arrays.copyOf(means, count));
        if (kept.length > KEPT) {
            throw new IllegalArgumentException("state is damaged: " + kept.length + " means");
        }
        count = kept.length;
        System.arraycopy(kept, 0, means, 0, count);
    }
}
