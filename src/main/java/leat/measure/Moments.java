package leat.measure;

import leat.wire.State;

/**
 * Mean and standard deviation of any number of values without keeping them. Stable for values that
 * are large against their spread (Welford's update; Chan, Golub and LeVeque's merging).
 * Thread-confined.
 */
final class Moments {

    private long count;
    private double mean;

    /** Sum of the squared deviations from the mean. */
    private double squares;

    void add(double value) {
        count++;
        double off = value - mean;
        mean += off / count;
        squares += off * (value - mean);
    }

    /**
     * Adds many values at once.
     *
     * @param from a value near them
     * @param offSum sum of their differences from it
     * @param offSquares sum of the squares of those differences
     */
    void addAll(long values, double from, double offSum, double offSquares) {
        if (values > 0) {
            Moments many = new Moments();
            many.count = values;
            many.mean = from + offSum / values;
            many.squares = Math.max(0, offSquares - offSum * offSum / values);
            addAll(many);
        }
    }

    void addAll(Moments other) {
        if (other.count == 0) {
            return;
        }
        long both = count + other.count;
        double off = other.mean - mean;
        squares += other.squares + off * off * count * other.count / both;
        mean += off * other.count / both;
        count = both;
    }

    long count() {
        return count;
    }

    /** 0 while there is no value. */
    double mean() {
        return mean;
    }

    /** Standard deviation with n - 1 degrees of freedom; 0 for fewer than two values. */
    double sd() {
        return count < 2 ? 0 : Math.sqrt(squares / (count - 1));
    }

    /** Half the 95 % interval of the mean of so few values, by Student's t; of two or more. */
    double doubtOfMean() {
        return StudentT.factor95(count - 1) * sd() / Math.sqrt(count);
    }

    void clear() {
        count = 0;
        mean = 0;
        squares = 0;
    }

    void keep(State state) {
        count = state.keep("count", count);
        mean = state.keep("mean", mean);
        squares = state.keep("squares", squares);
    }
}
