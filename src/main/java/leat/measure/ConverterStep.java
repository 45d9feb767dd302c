package leat.measure;

import java.util.Arrays;

/** Finds the step of the converter in the readings of a stretch. */
final class ConverterStep {

    /** Differences below this are rounding of the arithmetic. */
    private static final double LEAST_PSI = 1e-6;

    private static final int MOST_STEPS = 20;
    private static final double OFF_STEPS = 0.1;
    private static final double SHARE = 0.95;
    private static final int LEAST_DIFFERENCES = 8;

    private ConverterStep() {}

    /**
     * The smallest difference of neighbouring raw readings that occurs twice and of which the other
     * small ones are whole multiples, psi; 0 when there is none, as with readings that are not
     * rounded.
     */
    static double of(Stretch curve) {
        double[] differences = differences(curve);
        if (differences.length < LEAST_DIFFERENCES) {
            return 0;
        }
        for (int i = 0; i + 1 < differences.length; i++) {
            if (differences[i + 1] <= differences[i] * (1 + OFF_STEPS)) {
                return fits(differences, differences[i]) ? differences[i] : 0;
            }
        }
        return 0;
    }

    private static double[] differences(Stretch curve) {
        double[] differences = new double[Math.max(0, curve.size() - 1)];
        int n = 0;
        for (int i = 0; i + 1 < curve.size(); i++) {
            double difference = Math.abs(curve.raw(i + 1) - curve.raw(i));
            if (difference > LEAST_PSI) {
                differences[n++] = difference;
            }
        }
        Arrays.sort(differences, 0, n);
        return Arrays.copyOf(differences, n);
    }

    private static boolean fits(double[] differences, double step) {
        int small = 0;
        int whole = 0;
        for (double difference : differences) {
            double steps = difference / step;
            if (steps < MOST_STEPS) {
                small++;
                whole += Math.abs(steps - Math.rint(steps)) < OFF_STEPS ? 1 : 0;
            }
        }
        return whole >= SHARE * small;
    }
}
