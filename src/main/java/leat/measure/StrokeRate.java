package leat.measure;

/**
 * A rough search for the time after which a stretch repeats itself: the autocorrelation of its
 * means over even steps of time, about its straight line. Gaps are taken as lying on the line.
 */
final class StrokeRate {

    /** Slowest and fastest strokes sought; 0.5 to 1.5 Hz is what models of the line use. */
    static final double SLOWEST_HZ = 0.3;

    static final double FASTEST_HZ = 3;
    static final double LEAST_PERIODS = 3;
    private static final double LEAST_STEP_SECONDS = 0.04;

    /** A longer repeat may be this much better and still be a multiple of a shorter one. */
    private static final double AS_GOOD = 0.8;

    /** A lower correlation is no repeat. */
    private static final double LEAST_CORRELATION = 0.15;

    private StrokeRate() {}

    /** Strokes per second, to a few percent; 0 when nothing repeats. */
    static double hertz(Stretch stretch) {
        double step = Math.max(LEAST_STEP_SECONDS, stretch.interval());
        double[] even = even(stretch, step);
        int shortest = Math.max(2, (int) Math.floor(1 / FASTEST_HZ / step));
        int longest =
                (int)
                        Math.min(
                                Math.ceil(1 / SLOWEST_HZ / step),
                                Math.floor(even.length / LEAST_PERIODS) + 1);
        if (shortest + 2 > longest) {
            return 0;
        }
        double[] alike = new double[longest + 2];
        for (int lag = shortest - 1; lag < alike.length; lag++) {
            alike[lag] = correlation(even, lag);
        }
        double best = LEAST_CORRELATION * correlation(even, 0);
        int lag = 0;
        for (int i = longest; i >= shortest; i--) {
            boolean crest = alike[i] >= alike[i - 1] && alike[i] >= alike[i + 1];
            if (crest && alike[i] > AS_GOOD * best) {
                best = Math.max(best, alike[i]);
                lag = i;
            }
        }
        return lag == 0 || best <= 0 ? 0 : 1 / (step * vertex(alike, lag));
    }

    private static double vertex(double[] alike, int lag) {
        double bend = alike[lag - 1] - 2 * alike[lag] + alike[lag + 1];
        return bend < 0 ? lag + (alike[lag - 1] - alike[lag + 1]) / (2 * bend) : lag;
    }

    private static double correlation(double[] even, int lag) {
        double sum = 0;
        for (int i = 0; i + lag < even.length; i++) {
            sum += even[i] * even[i + lag];
        }
        return sum / Math.max(1, even.length - lag);
    }

    /** Means over even steps, less the straight line through the whole. */
    private static double[] even(Stretch stretch, double step) {
        int steps = (int) (stretch.spanSeconds() / step) + 1;
        double[] even = new double[steps];
        int[] counts = new int[steps];
        double middle = stretch.second(0) + stretch.spanSeconds() / 2;
        double mean = stretch.mean(0, stretch.size());
        double products = 0;
        double squares = 0;
        for (int i = 0; i < stretch.size(); i++) {
            double off = stretch.second(i) - middle;
            products += off * (stretch.psi(i) - mean);
            squares += off * off;
        }
        double slope = products / squares;
        for (int i = 0; i < stretch.size(); i++) {
            int at = Math.min(steps - 1, (int) ((stretch.second(i) - stretch.second(0)) / step));
            even[at] += stretch.psi(i) - mean - slope * (stretch.second(i) - middle);
            counts[at]++;
        }
        for (int i = 0; i < steps; i++) {
            even[i] /= Math.max(1, counts[i]);
        }
        return even;
    }
}
