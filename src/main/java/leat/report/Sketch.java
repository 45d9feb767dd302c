package leat.report;

import java.util.Arrays;
import leat.signal.Reading;

/**
 * One pressure over a window of time, in as many columns as a drawing has: lowest and highest
 * reading of each. Memory does not grow with the number of readings. Thread-confined.
 */
public final class Sketch {

    private final long fromMicros;
    private final long toMicros;
    private final double[] low;
    private final double[] high;

    /**
     * @param fromMicros first instant of the window, microseconds UTC
     * @param toMicros last instant of the window
     * @param columns 1 or more
     */
    public Sketch(long fromMicros, long toMicros, int columns) {
        if (toMicros < fromMicros || columns < 1) {
            throw new IllegalArgumentException(
                    columns + " columns from " + fromMicros + " to " + toMicros);
        }
        this.fromMicros = fromMicros;
        this.toMicros = toMicros;
        low = new double[columns];
        high = new double[columns];
        Arrays.fill(low, Double.POSITIVE_INFINITY);
        Arrays.fill(high, Double.NEGATIVE_INFINITY);
    }

    /** Takes a reading; one outside the window or without a number leaves no mark. */
    public void add(Reading reading) {
        long at = reading.atMicros();
        if (at < fromMicros || at > toMicros || !reading.quality().isUsable()) {
            return;
        }
        double share = (double) (at - fromMicros) / Math.max(1, toMicros - fromMicros);
        int column = Math.min(low.length - 1, (int) (share * low.length));
        low[column] = Math.min(low[column], reading.value());
        high[column] = Math.max(high[column], reading.value());
    }

    int columns() {
        return low.length;
    }

    boolean isEmpty(int column) {
        return low[column] > high[column];
    }

    double low(int column) {
        return low[column];
    }

    double high(int column) {
        return high[column];
    }

    /** Highest reading in the window; negative infinity where there is none. */
    public double highest() {
        return Arrays.stream(high).max().orElseThrow();
    }

    /** Lowest reading in the window; positive infinity where there is none. */
    public double lowest() {
        return Arrays.stream(low).min().orElseThrow();
    }

    /**
     * The shape in one line, a character a column; blank where nothing was read.
     *
     * @param glyphs from low to high
     * @param topPsi where the highest begins, unless a reading is higher still
     */
    public String line(String glyphs, double topPsi) {
        double top = Math.max(highest(), topPsi);
        StringBuilder line = new StringBuilder();
        for (int i = 0; i < low.length; i++) {
            double share = isEmpty(i) ? 0 : Math.max(0, (low[i] + high[i]) / 2 / top);
            int step = (int) Math.min(glyphs.length() - 1, share * glyphs.length());
            line.append(isEmpty(i) ? ' ' : glyphs.charAt(step));
        }
        return line.toString();
    }
}
