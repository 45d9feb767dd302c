package leat.measure;

/** Finds when strokes began, walking back from the end until the pressure no longer swings. */
final class StrokeOnset {

    private static final int STEADY_STROKES = 3;

    /** A stroke's time that varies by less than this share of the strokes' variance is quiet. */
    private static final double QUIET_SHARE = 0.1;

    private static final double MOST_QUIET_SHARE = 0.5;
    private static final double NOISE_SDS = 1.5;

    /** The quiet time found may still hold so much of the first stroke. */
    private static final double FIRST_OF_STROKE = 0.25;

    private StrokeOnset() {}

    /**
     * The second at which the strokes began; the last second when there are none, the first when
     * the stretch never was quiet.
     *
     * @param risen the pressure since the climb
     */
    static double of(Stretch risen, Ripple ripple, Noise noise) {
        double end = risen.second(risen.size() - 1);
        if (!ripple.isPresent()) {
            return end;
        }
        double stroke = 1 / ripple.frequencyHz().get();
        int perStroke = Math.max(3, (int) Math.rint(stroke / noise.intervalSeconds()));
        double[] sums = new double[risen.size() + 1];
        double[] squares = new double[risen.size() + 1];
        for (int i = 0; i < risen.size(); i++) {
            double y = risen.psi(i) - risen.psi(0);
            sums[i + 1] = sums[i] + y;
            squares[i + 1] = squares[i] + y * y;
        }
        int whole = Math.max(0, risen.size() - STEADY_STROKES * perStroke);
        double ofNoise = noise.ofMeanOnLevel(1) * noise.ofMeanOnLevel(1);
        double steady = Math.max(0, variance(sums, squares, whole, risen.size()) - ofNoise);
        double quiet =
                Math.min(
                        MOST_QUIET_SHARE * steady,
                        QUIET_SHARE * steady + NOISE_SDS * ofNoise * Math.sqrt(2.0 / perStroke));
        for (int last = risen.size(); last >= perStroke; last--) {
            if (variance(sums, squares, last - perStroke, last) - ofNoise < quiet) {
                return Math.max(risen.second(0), risen.second(last - 1) - FIRST_OF_STROKE * stroke);
            }
        }
        return risen.second(0);
    }

    private static double variance(double[] sums, double[] squares, int from, int end) {
        double n = end - from;
        double mean = (sums[end] - sums[from]) / n;
        return (squares[end] - squares[from]) / n - mean * mean;
    }
}
