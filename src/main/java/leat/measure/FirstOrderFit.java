package leat.measure;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;

/**
 * Least-squares fit of a first-order rise {@code y = amplitude (1 - exp(-rate x))} by
 * Levenberg-Marquardt. Immutable.
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
    private static final int MOST_EVALUATIONS = 1_000;
    private static final double TOLERANCE = 1e-14;

    /**
     * Fits.
     *
     * @param x at least three values, not all 0
     * @param y as many values
     * @param startRate a first guess of the rate, above 0
     * @throws org.hipparchus.exception.MathRuntimeException when the data do not determine a rise
     */
    static FirstOrderFit of(double[] x, double[] y, double startRate) {
        double rate = bestRate(x, y, startRate);
        LeastSquaresOptimizer.Optimum optimum =
                new LevenbergMarquardtOptimizer()
                        .withCostRelativeTolerance(TOLERANCE)
                        .withParameterRelativeTolerance(TOLERANCE)
                        .withOrthoTolerance(TOLERANCE)
                        .optimize(
                                new LeastSquaresBuilder()
                                        .start(new double[] {amplitude(x, y, rate), rate})
                                        .target(y)
                                        .model(point -> model(x, point.toArray()))
                                        .maxEvaluations(MOST_EVALUATIONS)
                                        .maxIterations(MOST_EVALUATIONS)
                                        .build());
        return of(x, optimum);
    }

    private static FirstOrderFit of(double[] x, LeastSquaresOptimizer.Optimum optimum) {
        double squares = optimum.getResiduals().dotProduct(optimum.getResiduals());
        double sd = Math.sqrt(squares / (x.length - 2));
        RealMatrix covariances = optimum.getCovariances(TOLERANCE);
        return new FirstOrderFit(
                optimum.getPoint().getEntry(0),
                optimum.getPoint().getEntry(1),
                sd * Math.sqrt(covariances.getEntry(0, 0)),
                sd * Math.sqrt(covariances.getEntry(1, 1)),
                squares,
                sd);
    }

    private static Pair<RealVector, RealMatrix> model(double[] x, double[] point) {
        double[] values = new double[x.length];
        double[][] slopes = new double[x.length][2];
        for (int i = 0; i < x.length; i++) {
            double decay = Math.exp(-point[1] * x[i]);
            values[i] = point[0] * (1 - decay);
            slopes[i][0] = 1 - decay;
            slopes[i][1] = point[0] * x[i] * decay;
        }
        return new Pair<>(
                new ArrayRealVector(values, false), new Array2DRowRealMatrix(slopes, false));
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
