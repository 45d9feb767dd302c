package leat.measure;

/**
 * What straight lines between samples do to the reference-level instants of a first-order rise,
 * over all phases between the climb and the sampling clock: the worst of usual shapes, since it
 * leaves its base with a corner. 1.96 times the root of the mean square of the errors, as a share
 * of the 10 to 90 % duration.
 */
record InterpolationError(double at10, double at50, double at90, double ofDuration) {

    /**
     * A second-order rise leaves its base along a parabola, whose bend over slope at 10 % is 3.5
     * per duration; an eighth of that times the interval squared is the most a chord is off, 0.7 of
     * it the root of the mean square. A chord passes 10 % too early and 90 % too late, so that both
     * lengthen the duration.
     */
    private static final double SECOND_ORDER = 3.5 / 8 * 0.7;

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
            errors[0][i] = (e10);
            errors[1][i] = (error(0.5, interval, phase));
            errors[2][i] = (e90);
            errors[3][i] = (e90 - e10);
        }
        double bend = SECOND_ORDER / (intervals * intervals);
        return new InterpolationError(
                Math.max(bend, bound(errors[0])),
                Math.max(bend, bound(errors[1])),
                Math.max(bend, bound(errors[2])),
                Math.max(2 * bend, bound(errors[3])));
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

    private static double bound(double[] errors) {
        double squares = 0;
        for (double error : errors) {
            squares += error * error / PHASES;
        }
        return Figure.NORMAL_95 * Math.sqrt(squares) / LN_9;
    }
}
