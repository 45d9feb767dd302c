package leat.measure.fit;

import java.util.Optional;

/**
 * Least-squares fit of a first-order rise {@code y = amplitude (1 - exp(-rate x))}: {@link
 * FirstOrderRise} with delay and base held at 0, through the same {@link Regression} as the fits of
 * a startup. Immutable.
 *
 * <p>For a given rate the best amplitude is known in closed form, so the start is first bettered by
 * a search over rates alone: a poor first guess, from which the plain method runs into overflow or
 * along the flat line, then does no harm.
 *
 * @param amplitude the level that the rise goes towards, in the unit of y
 * @param rate reciprocal of the time constant, in reciprocal units of x
 * @param amplitudeError standard error of {@code amplitude}
 * @param rateError standard error of {@code rate}
 * @param residualSquares sum of the squared residuals
 * @param residualSd residual standard deviation, with n - 2 degrees of freedom
 */
record FirstOrderFit(
        double amplitude,
        double rate,
        double amplitudeError,
        double rateError,
        double residualSquares,
        double residualSd) {

    private static final double FACTOR = 1.2;
    private static final int STEPS = 60;

    /**
     * Fits; empty when the data do not determine a rise.
     *
     * @param x at least three values, not all 0
     * @param y as many values
     * @param startRate a first guess of the rate, above 0
     */
    static Optional<FirstOrderFit> of(double[] x, double[] y, double startRate) {
        double rate = bestRate(x, y, startRate);
        double[] start = new double[4];
        start[FirstOrderRise.AMPLITUDE] = amplitude(x, y, rate);
        start[FirstOrderRise.RATE] = rate;
        return Regression.of(
                        new FirstOrderRise(),
                        x,
                        y,
                        start,
                        FirstOrderRise.AMPLITUDE,
                        FirstOrderRise.RATE)
                .map(FirstOrderFit::of);
    }

    private static FirstOrderFit of(Regression fit) {
        return new FirstOrderFit(
                fit.parameter(FirstOrderRise.AMPLITUDE),
                fit.parameter(FirstOrderRise.RATE),
                fit.plainError(FirstOrderRise.AMPLITUDE),
                fit.plainError(FirstOrderRise.RATE),
                fit.residualSquares(),
                fit.residualSd());
    }

    /** The best of many rates around the first guess, each with its own best amplitude. */
    private static double bestRate(double[] x, double[] y, double startRate) {
        double best = startRate;
        double least = Double.POSITIVE_INFINITY;
        double rate = startRate * Math.pow(FACTOR, -STEPS);
        for (int i = -STEPS; i <= STEPS; i++) {
            double squares = squares(x, y, rate);
            if (squares < least) {
                least = squares;
                best = rate;
            }
            rate *= FACTOR;
        }
        return best;
    }

    private static double squares(double[] x, double[] y, double rate) {
        double amplitude = amplitude(x, y, rate);
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            double residual = y[i] - amplitude * (1 - Math.exp(-rate * x[i]));
            squares += residual * residual;
        }
        return squares;
    }

    private static double amplitude(double[] x, double[] y, double rate) {
        double products = 0;
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            double rise = 1 - Math.exp(-rate * x[i]);
            products += rise * y[i];
            squares += rise * rise;
        }
        return products / squares;
    }

    double timeConstant() {
        return 1 / rate;
    }
}
