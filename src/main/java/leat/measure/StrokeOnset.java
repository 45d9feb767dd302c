package leat.measure;

import java.util.Arrays;

/** Finds when strokes began, walking back from the end until the pressure no longer swings. */
final class StrokeOnset {

    private static final double HALF_SECONDS = 0.05;
    private static final double STEADY_STROKES = 3;

    /** A stroke's time that swings by less than this share of the steady swing is quiet. */
    private static final double QUIET_SHARE = 0.5;

    /** The quiet time found still holds so much of the first stroke. */
    private static final double FIRST_OF_STROKE = 0.3;

    private StrokeOnset() {}

    /**
     * The second at which the strokes began; the last second when there are none, the first when
     * the stretch never was quiet.
     *
     * @param risen the pressure since the climb
     */
    static double of(Stretch risen, Ripple ripple) {
        double end = risen.second(risen.size() - 1);
        if (!ripple.isPresent()) {
            return end;
        }
        double stroke = 1 / ripple.frequencyHz().get();
        Stretch calm = risen.smoothed(HALF_SECONDS);
        double steady = median(swings(calm, stroke, end));
        for (int last = risen.size() - 1; last > 0; last--) {
            double until = risen.second(last);
            int from = risen.indexFrom(until - stroke);
            if (until - stroke < risen.second(0)) {
                break;
            }
            if (swing(calm, from, last + 1) < QUIET_SHARE * steady) {
                return until - FIRST_OF_STROKE * stroke;
            }
        }
        return risen.second(0);
    }

    private static double[] swings(Stretch calm, double stroke, double end) {
        double[] swings = new double[(int) STEADY_STROKES];
        for (int i = 0; i < swings.length; i++) {
            int from = calm.indexFrom(end - (i + 1) * stroke);
            swings[i] = swing(calm, from, calm.indexAfter(end - i * stroke));
        }
        return swings;
    }

    private static double swing(Stretch calm, int from, int end) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = from; i < end; i++) {
            low = Math.min(low, calm.psi(i));
            high = Math.max(high, calm.psi(i));
        }
        return high - low;
    }

    private static double median(double[] swings) {
        Arrays.sort(swings);
        return swings[swings.length / 2];
    }
}
