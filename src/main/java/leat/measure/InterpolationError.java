package leat.measure;

import java.util.Arrays;

/**
 * What straight lines between samples do to the reference-level instants of a first-order rise,
 * over all phases between the climb and the sampling clock: the worst of usual shapes, since it
 * leaves its base with a corner. Bounds of the errors that hold in 95 % of the phases, as a share
 * of the 10 to 90 % duration.
 */
record InterpolationError(double at10, double at50, double at90, double ofDuration) {

    private static final int PHASES = 64;

    /** Between two reference instants: 10 to 90 % in time constants. */
    private static final double LN_9 = Math.log(9);

    /**
     * @param intervals sampling intervals in the 10 to 90 % duration
     */
    static InterpolationError of(double intervals) {
        double interval = LN_9 / intervals;
        double[][] errors = new double[4][PHASES];
        for (int i = 0; i < PHASES; i++) {
            double phase = (i + 0.5) / PHASES * interval;
            double e10 = error(0.1, interval, phase);
            double e90 = error(0.9, interval, phase);
            errors[0][i] = Math.abs(e10);
            errors[1][i] = Math.abs(error(0.5, interval, phase));
            errors[2][i] = Math.abs(e90);
            errors[3][i] = Math.abs(e90 - e10);
        }
        return new InterpolationError(
                most(errors[0]), most(errors[1]), most(errors[2]), most(errors[3]));
    }

    /** Error of one crossing in time constants, the first sample a phase before the climb. */
    private static double error(double share, double interval, double phase) {
        double truth = -Math.log(1 - share);
        double after = Math.ceil((truth + phase) / interval) * interval - phase;
        double before = after - interval;
        double low = before <= 0 ? 0 : 1 - Math.exp(-before);
        double high = 1 - Math.exp(-after);
        return before + interval * (share - low) / (high - low) - truth;
    }

    private static double most(double[] errors) {
        Arrays.sort(errors);
        return errors[(int) (0.95 * PHASES)] / LN_9;
    }
}
