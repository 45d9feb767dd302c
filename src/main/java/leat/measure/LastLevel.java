package leat.measure;

/**
 * The mean of a pressure over its last seconds, in whole strokes, and how well it is known.
 * Immutable.
 *
 * <p>The seconds are looked at piece by piece, stroke by stroke where strokes are seen. How much
 * the means of the pieces differ says how far the mean of all hangs on which seconds are taken: a
 * level that still moves has the doubt that it deserves.
 *
 * @param psi mean, with its doubt
 * @param fromSecond first second that counts
 * @param toSecond last second that counts
 */
record LastLevel(Figure psi, double fromSecond, double toSecond) {

    static final double MOST_SECONDS = 6;
    private static final double PIECE_SECONDS = 1;

    /** Of a short stretch without strokes, and of slow strokes where there are as many. */
    private static final int LEAST_PIECES = 3;

    static final double JUST = 1e-6;

    /**
     * @param readings those that may count, single wild ones taken out, at least one
     * @param strokeSeconds of one stroke; 0 where none are seen
     */
    static LastLevel of(Stretch readings, Noise noise, double strokeSeconds) {
        double end = readings.second(readings.size() - 1);
        double most = Math.max(MOST_SECONDS, LEAST_PIECES * strokeSeconds);
        double span = Math.min(most, readings.spanSeconds() + noise.intervalSeconds());
        double piece =
                strokeSeconds > 0 ? strokeSeconds : Math.min(PIECE_SECONDS, span / LEAST_PIECES);
        int pieces = (int) Math.max(1, Math.floor(span / piece + JUST));
        double seconds = strokeSeconds > 0 ? pieces * piece : span;
        piece = seconds / pieces;
        double from = end - seconds;
        Stretch all = readings.part(from + JUST, end);
        double mean = all.mean(0, all.size());
        double sum = 0;
        double squares = 0;
        int n = 0;
        for (int i = 0; i < pieces; i++) {
            Stretch one = readings.part(from + i * piece + JUST, from + (i + 1) * piece);
            if (one.size() > 0) {
                double off = one.mean(0, one.size()) - mean;
                sum += off;
                squares += off * off;
                n++;
            }
        }
        double byNoise = noise.ofMeanOnClimb(all.size());
        double scatter = n < 2 ? 0 : (squares - sum * sum / n) / (n - 1) / n;
        double factor = n < 2 ? Figure.NORMAL_95 : StudentT.factor95(n - 1);
        double beyond = Math.max(0, scatter - byNoise * byNoise);
        return new LastLevel(
                Figure.of(mean, Math.hypot(Figure.NORMAL_95 * byNoise, factor * Math.sqrt(beyond))),
                from,
                end);
    }
}
