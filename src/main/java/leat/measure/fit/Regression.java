package leat.measure.fit;

import java.util.Arrays;
import java.util.Optional;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;

/**
 * Least-squares fit of a {@link FirstOrderRise} to readings by Levenberg-Marquardt, with some
 * parameters held. The fit of a startup goes through here, and so do the checks against the
 * certified values of NIST. Immutable.
 *
 * <p>Two covariances are told. The plain one, residual variance times the inverse of J'J, is the
 * textbook's and NIST's; it holds for independent errors of equal size. The {@linkplain #spread
 * stated} one also knows that a transducer's readings are rounded and that what a model leaves over
 * (strokes, wander) is not independent from reading to reading:
 *
 * <ul>
 *   <li>Readings in a row that show the same count share one rounding error, of variance quantum
 *       squared over 12. It goes into the parameters run by run and is taken out of the residual
 *       variance, so that it does not count twice.
 *   <li>The rest of the residual variance is multiplied by one plus twice the sum of the leading
 *       autocorrelations of the residuals, up to the first that is not significant (2 over root n);
 *       the degrees of freedom shrink by as much.
 * </ul>
 */
final class Regression {

    private static final double TOLERANCE = 1e-14;
    private static final int MOST_EVALUATIONS = 500;

    /** J'J of columns scaled to length 1: below this the readings do not tell parameters apart. */
    private static final double SINGULAR = 1e-13;

    private static final double INSIDE_95 = 0.975;

    private final double[] x;
    private final double[] y;
    private final int[] free;
    private final double[] point;
    private final double[][] slopes;
    private final double[] residuals;
    private final RealMatrix inverse;

    private Regression(
            double[] x,
            double[] y,
            int[] free,
            double[] point,
            double[][] slopes,
            double[] residuals,
            RealMatrix inverse) {
        this.x = x;
        this.y = y;
        this.free = free;
        this.point = point;
        this.slopes = slopes;
        this.residuals = residuals;
        this.inverse = inverse;
    }

    /**
     * Fits; empty when the readings do not determine the parameters.
     *
     * @param x as many values as {@code y}
     * @param start a first guess of all parameters; those not in {@code free} keep their value
     * @param free indices of the parameters to be found
     */
    static Optional<Regression> of(double[] x, double[] y, double[] start, int... free) {
        if (x.length <= free.length) {
            return Optional.empty();
        }
        Search search = new Search(x, y, start, free);
        try {
            new LevenbergMarquardtOptimizer()
                    .withCostRelativeTolerance(TOLERANCE)
                    .withParameterRelativeTolerance(TOLERANCE)
                    .withOrthoTolerance(TOLERANCE)
                    .optimize(
                            new LeastSquaresBuilder()
                                    .start(search.chosen(start))
                                    .target(y)
                                    .model(candidate -> search.evaluate(candidate))
                                    .maxEvaluations(MOST_EVALUATIONS)
                                    .maxIterations(MOST_EVALUATIONS)
                                    .build());
        } catch (MathRuntimeException unfinished) {
            // Rounding can keep a perfect fit from its tolerance: the best point seen stands.
            return search.best();
        }
        return search.best();
    }

    /** The walk of one fit; remembers the best point that it passed. Confined to the fit. */
    private static final class Search {
        private final double[] x;
        private final double[] y;
        private final double[] start;
        private final int[] free;
        private double[] bestPoint = new double[0];
        private double least = Double.POSITIVE_INFINITY;

        Search(double[] x, double[] y, double[] start, int[] free) {
            this.x = x;
            this.y = y;
            this.start = start;
            this.free = free;
        }

        double[] chosen(double[] all) {
            return Arrays.stream(free).mapToDouble(index -> all[index]).toArray();
        }

        double[] whole(double[] chosen) {
            double[] all = start.clone();
            for (int i = 0; i < free.length; i++) {
                all[free[i]] = chosen[i];
            }
            return all;
        }

        Pair<RealVector, RealMatrix> evaluate(RealVector candidate) {
            double[] all = whole(candidate.toArray());
            double[] values = new double[x.length];
            double[][] slopes = new double[x.length][free.length];
            double squares = fill(all, values, slopes);
            if (squares < least) {
                least = squares;
                bestPoint = all;
            }
            return new Pair<>(
                    new ArrayRealVector(values, false), new Array2DRowRealMatrix(slopes, false));
        }

        private double fill(double[] all, double[] values, double[][] slopes) {
            double[] every = new double[FirstOrderRise.PARAMETERS];
            double squares = 0;
            for (int i = 0; i < x.length; i++) {
                values[i] = FirstOrderRise.at(x[i], all, every);
                for (int k = 0; k < free.length; k++) {
                    slopes[i][k] = every[free[k]];
                }
                squares += (y[i] - values[i]) * (y[i] - values[i]);
            }
            return squares;
        }

        Optional<Regression> best() {
            if (bestPoint.length == 0) {
                return Optional.empty();
            }
            double[] residuals = new double[x.length];
            double[][] slopes = new double[x.length][free.length];
            fill(bestPoint, residuals, slopes);
            for (int i = 0; i < x.length; i++) {
                residuals[i] = y[i] - residuals[i];
            }
            return inverse(slopes)
                    .map(m -> new Regression(x, y, free, bestPoint, slopes, residuals, m));
        }
    }

    /** Inverse of J'J, worked out on columns of length 1; empty when it has none. */
    private static Optional<RealMatrix> inverse(double[][] slopes) {
        RealMatrix jacobian = new Array2DRowRealMatrix(slopes, false);
        RealMatrix product = jacobian.transposeMultiply(jacobian);
        int n = product.getRowDimension();
        double[] length = new double[n];
        for (int i = 0; i < n; i++) {
            length[i] = Math.sqrt(product.getEntry(i, i));
            if (!(length[i] > 0) || !Double.isFinite(length[i])) {
                return Optional.empty();
            }
        }
        RealMatrix scaled = product.copy();
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < n; k++) {
                scaled.multiplyEntry(i, k, 1 / (length[i] * length[k]));
            }
        }
        LUDecomposition decomposition = new LUDecomposition(scaled, SINGULAR);
        if (!decomposition.getSolver().isNonSingular()) {
            return Optional.empty();
        }
        RealMatrix inverse = decomposition.getSolver().getInverse();
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < n; k++) {
                inverse.multiplyEntry(i, k, 1 / (length[i] * length[k]));
            }
        }
        return Optional.of(inverse);
    }

    int size() {
        return x.length;
    }

    double x(int i) {
        return x[i];
    }

    /** Reading minus curve. */
    double residual(int i) {
        return residuals[i];
    }

    /** The fitted value of a parameter, or the one at which it was held. */
    double parameter(int index) {
        return point[index];
    }

    double residualSquares() {
        double squares = 0;
        for (double residual : residuals) {
            squares += residual * residual;
        }
        return squares;
    }

    int degreesOfFreedom() {
        return x.length - free.length;
    }

    double residualSd() {
        return Math.sqrt(residualSquares() / degreesOfFreedom());
    }

    /** The textbook's standard error of a parameter; 0 for one that was held. */
    double plainError(int index) {
        int k = position(index);
        return k < 0 ? 0 : residualSd() * Math.sqrt(inverse.getEntry(k, k));
    }

    private int position(int index) {
        for (int k = 0; k < free.length; k++) {
            if (free[k] == index) {
                return k;
            }
        }
        return -1;
    }

    /** How many times more the residuals weigh because they are not independent; 1 or more. */
    double dependence() {
        double significant = 2 / Math.sqrt(x.length);
        double sum = 0;
        for (int lag = 1; lag <= x.length / 4; lag++) {
            double correlation = autocorrelation(lag);
            if (!(correlation > significant)) {
                break;
            }
            sum += correlation;
        }
        return 1 + 2 * sum;
    }

    /** Autocorrelation of the residuals as in the NIST handbook; 0 where all residuals are 0. */
    double autocorrelation(int lag) {
        double products = 0;
        for (int i = lag; i < residuals.length; i++) {
            products += residuals[i] * residuals[i - lag];
        }
        double squares = residualSquares();
        return squares == 0 ? 0 : products / squares;
    }

    /** Student's t for 95 %, with the degrees of freedom that dependent residuals leave. */
    private double student() {
        double degrees = Math.max(1, x.length / dependence() - free.length);
        return new TDistribution(degrees).inverseCumulativeProbability(INSIDE_95);
    }

    /**
     * The stated spread of the parameters.
     *
     * @param quantum step between neighbouring readings of the transducer, in the unit of y; 0 when
     *     there is none to be seen
     */
    Spread spread(double quantum) {
        return new Spread(covariance(quantum), student());
    }

    /**
     * The same fit with one reading left out of what the readings tell about the parameters: for a
     * reading on a kink of the curve, of which nobody knows to which side it belongs. Empty when
     * the others do not determine the parameters.
     */
    Optional<Regression> withoutSlopesAt(int index) {
        double[][] fewer = slopes.clone();
        fewer[index] = new double[free.length];
        return inverse(fewer).map(m -> new Regression(x, y, free, point, fewer, residuals, m));
    }

    private double[][] covariance(double quantum) {
        double rounding = quantum * quantum / 12;
        double noise = residualSquares() / degreesOfFreedom() - rounding;
        RealMatrix sum = inverse.scalarMultiply(Math.max(0, noise) * dependence());
        for (int from = 0; from < x.length && quantum > 0; ) {
            int end = from + 1;
            while (end < x.length && y[end] == y[from]) {
                end++;
            }
            RealVector shift = inverse.operate(new ArrayRealVector(sum(from, end), false));
            sum = sum.add(shift.outerProduct(shift).scalarMultiply(rounding));
            from = end;
        }
        double[][] all = new double[point.length][point.length];
        for (int i = 0; i < free.length; i++) {
            for (int k = 0; k < free.length; k++) {
                all[free[i]][free[k]] = sum.getEntry(i, k);
            }
        }
        return all;
    }

    private double[] sum(int from, int end) {
        double[] sum = new double[free.length];
        for (int i = from; i < end; i++) {
            for (int k = 0; k < sum.length; k++) {
                sum[k] += slopes[i][k];
            }
        }
        return sum;
    }
}
