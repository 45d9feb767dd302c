package leat.measure.fit;

/**
 * First-order rise after a delay: {@code base} before the delay, {@code base + amplitude (1 -
 * exp(-rate (x - delay)))} after it. With a delay and a base of 0 it is the model of the NIST sets
 * Misra1a and BoxBOD.
 *
 * <p>The curve is continuous in the delay; its derivative jumps where the delay passes a reading,
 * so a search must start close ({@link FirstOrderScan}).
 */
final class FirstOrderRise {

    static final int AMPLITUDE = 0;
    static final int RATE = 1;
    static final int DELAY = 2;
    static final int BASE = 3;
    static final int PARAMETERS = 4;

    private FirstOrderRise() {}

    /**
     * Value of the curve at {@code x}.
     *
     * @param slopes filled with the derivative by each parameter
     */
    static double at(double x, double[] point, double[] slopes) {
        double since = x - point[DELAY];
        slopes[BASE] = 1;
        if (since < 0) {
            slopes[AMPLITUDE] = 0;
            slopes[RATE] = 0;
            slopes[DELAY] = 0;
            return point[BASE];
        }
        double decay = Math.exp(-point[RATE] * since);
        slopes[AMPLITUDE] = 1 - decay;
        slopes[RATE] = point[AMPLITUDE] * since * decay;
        slopes[DELAY] = -point[AMPLITUDE] * point[RATE] * decay;
        return point[BASE] + point[AMPLITUDE] * (1 - decay);
    }
}
