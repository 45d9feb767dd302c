package leat.measure;

import java.util.Arrays;

/** Finds when strokes began, walking back from the end until the pressure no longer swings. */
final class StrokeOnset {

    private static final int STEADY_STROKES = 3;

    /** A stroke's time that swings by less than this share of the steady swing is quiet. */
    private static final double QUIET_SHARE = 0.3;

    private static final double MOST_QUIET_SHARE = 0.6;
    private static final double NOISE_SDS = 1.5;

    /** The quiet time found may still hold so much of the first stroke. */
    private static final double FIRST_OF_STROKE = 0.3;

    private final Stretch risen;
    private final double strokeSeconds;
    private final int perStroke;
    private final double[] sums;
    private final double[] squares;
    private final double[] cosines;
    private final double[] sines;
    private final double[] ofCosine;
    private final double[] ofSine;

    private StrokeOnset(Stretch risen, double hertz) {
        this.risen = risen;
        strokeSeconds = 1 / hertz;
        perStroke = Math.max(3, (int) Math.rint(strokeSeconds / risen.interval()));
        int n = risen.size() + 1;
        sums = new double[n];
        squares = new double[n];
        cosines = new double[n];
        sines = new double[n];
        ofCosine = new double[n];
        ofSine = new double[n];
        for (int i = 0; i + 1 < n; i++) {
            double y = risen.psi(i) - risen.psi(0);
            double angle = 2 * Math.PI * hertz * risen.second(i);
            double c = Math.cos(angle);
            double s = Math.sin(angle);
            sums[i + 1] = sums[i] + y;
            squares[i + 1] = squares[i] + y * y;
            cosines[i + 1] = cosines[i] + c;
            sines[i + 1] = sines[i] + s;
            ofCosine[i + 1] = ofCosine[i] + y * c;
            ofSine[i + 1] = ofSine[i] + y * s;
        }
    }

    /**
     * The second at which the strokes began; the last second when there are none, the first when
     * the stretch never was quiet.
     *
     * @param risen the pressure since the climb
     */
    static double of(Stretch risen, Ripple ripple, Noise noise) {
        return ripple.isPresent()
                ? new StrokeOnset(risen, ripple.frequencyHz().get()).second(noise)
                : risen.second(risen.size() - 1);
    }

    private double second(Noise noise) {
        double steady = steadySwing();
        double byNoise = noise.sdPsi() * Math.sqrt(2.0 / perStroke);
        double quiet =
                Math.min(
                        MOST_QUIET_SHARE * steady,
                        Math.max(QUIET_SHARE * steady, NOISE_SDS * byNoise));
        double ofNoise = noise.sdPsi() * noise.sdPsi();
        double varied = quiet * quiet / 2 + ofNoise * (1 + NOISE_SDS * Math.sqrt(2.0 / perStroke));
        for (int end = risen.size(); end >= perStroke; end--) {
            if (swing(end) < quiet && variance(end) < varied) {
                double second = risen.second(end - 1) - FIRST_OF_STROKE * strokeSeconds;
                return Math.max(risen.second(0), second);
            }
        }
        return risen.second(0);
    }

    private double steadySwing() {
        double[] swings = new double[STEADY_STROKES];
        for (int i = 0; i < STEADY_STROKES; i++) {
            swings[i] = swing(Math.max(perStroke, risen.size() - i * perStroke));
        }
        Arrays.sort(swings);
        return swings[STEADY_STROKES / 2];
    }

    /** Amplitude at the strokes' frequency over one stroke's time before an index. */
    private double swing(int end) {
        int from = Math.max(0, Math.min(end, risen.size()) - perStroke);
        int until = Math.min(from + perStroke, risen.size());
        double n = until - from;
        double mean = (sums[until] - sums[from]) / n;
        double c = ofCosine[until] - ofCosine[from] - mean * (cosines[until] - cosines[from]);
        double s = ofSine[until] - ofSine[from] - mean * (sines[until] - sines[from]);
        return 2 / n * Math.hypot(c, s);
    }

    private double variance(int end) {
        int from = end - perStroke;
        double mean = (sums[end] - sums[from]) / perStroke;
        return (squares[end] - squares[from]) / perStroke - mean * mean;
    }
}
