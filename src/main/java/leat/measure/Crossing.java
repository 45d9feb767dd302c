package leat.measure;

/**
 * One instant at which a climb passes a pressure, by a straight line between two points of the
 * smoothed curve. Immutable.
 *
 * @param second of the crossing
 * @param slope psi per second there
 * @param noiseSeconds standard deviation that noise leaves
 * @param index first point at or above the pressure
 */
record Crossing(double second, double slope, double noiseSeconds, int index) {

    /**
     * The crossing between the point before {@code index}, below, and the one at it, above.
     *
     * @param smooth the curve averaged over {@code halfSeconds} to either side
     */
    static Crossing at(Stretch smooth, int index, double psi, Noise noise, double halfSeconds) {
        double second = smooth.crossing(index - 1, psi);
        double slope = slope(smooth, index, Math.max(halfSeconds, 0), second);
        double sd = noise.ofMeanOnClimb(noise.readingsIn(2 * halfSeconds));
        return new Crossing(second, slope, sd / slope, index);
    }

    /** Slope by least squares over the window, never over fewer than the two points around. */
    private static double slope(Stretch smooth, int index, double half, double second) {
        int from = Math.min(index - 1, smooth.indexFrom(second - half));
        int end = Math.max(index + 1, smooth.indexAfter(second + half));
        double meanSecond = 0;
        for (int i = from; i < end; i++) {
            meanSecond += smooth.second(i) / (end - from);
        }
        double products = 0;
        double squares = 0;
        for (int i = from; i < end; i++) {
            double off = smooth.second(i) - meanSecond;
            products += off * smooth.psi(i);
            squares += off * off;
        }
        double across =
                (smooth.psi(index) - smooth.psi(index - 1))
                        / (smooth.second(index) - smooth.second(index - 1));
        double slope = products / squares;
        return slope > 0 ? slope : across;
    }
}
