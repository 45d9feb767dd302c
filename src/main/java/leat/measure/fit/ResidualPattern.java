package leat.measure.fit;

import org.hipparchus.distribution.continuous.FDistribution;

/**
 * What is left of a rise when its fitted curve is taken away. Judged in this order; the figures are
 * of this code and tested, the tests themselves are the runs test and lag-1 autocorrelation of the
 * NIST/SEMATECH e-Handbook, section 1.3.5, and the F test of nested models:
 *
 * <ol>
 *   <li>{@link #TOO_FEW} under 20 readings.
 *   <li>{@link #NOISE} unless both the runs test (too few runs of one sign, 0.5 % one-sided) and
 *       the lag-1 autocorrelation (above 2.576 over root n) say otherwise, and the part that is not
 *       noise, residual variance less that of the changes between neighbours, is more than one step
 *       of the transducer and more than 0.5 % of the rise.
 *   <li>{@link #WAVES} when the residuals swing at least five times from one side to the other,
 *       each beyond three standard deviations of their noise, in even time.
 *   <li>{@link #STEP} when two climbs, one after the other and both on record, leave less than a
 *       quarter of the sum of squares, and by the F test not by chance (0.1 %).
 *   <li>{@link #BEND} otherwise.
 * </ol>
 *
 * <p>Waves faster than four readings a period cannot be seen and count as noise.
 */
public enum ResidualPattern {
    /** No more than the noise of the readings: the curve describes the rise. */
    NOISE,
    /** Periodic: strokes of the intensifier, or a pressure that rings. */
    WAVES,
    /** The pressure climbed twice, for example a fill and then the boost. */
    STEP,
    /** A slow shape: the curve is the wrong one, or the level wanders. */
    BEND,
    /** Too few readings to say. */
    TOO_FEW;

    private static final int LEAST_READINGS = 20;
    private static final double SIGNIFICANT = 2.576;
    private static final double LEAST_SHARE = 0.005;
    private static final int LEAST_SWINGS = 5;
    private static final double SWING_SDS = 3;
    private static final double EVEN = 0.5;
    private static final double MUCH_LESS = 0.25;
    private static final double BY_CHANCE = 0.001;
    private static final int MOST_FITTED = 250;

    static ResidualPattern of(FopdtFit fit) {
        return of(fit.regression(), fit.samples().quantumPsi(), fit.amplitudePsi().value());
    }

    static ResidualPattern of(SecondOrderFit fit) {
        return of(fit.regression(), fit.samples().quantumPsi(), fit.amplitudePsi().value());
    }

    private static ResidualPattern of(Regression fit, double quantumPsi, double amplitudePsi) {
        if (fit.size() < LEAST_READINGS) {
            return TOO_FEW;
        }
        double shape = shapePsi(fit);
        boolean large = shape > Math.max(quantumPsi, LEAST_SHARE * amplitudePsi);
        boolean correlated = fit.autocorrelation(1) > SIGNIFICANT / Math.sqrt(fit.size());
        if (!large || !correlated || runs(fit) > -SIGNIFICANT) {
            return NOISE;
        }
        if (swings(fit)) {
            return WAVES;
        }
        return twoClimbs(fit) ? STEP : BEND;
    }

    /** Root mean square of what is not noise from reading to reading. */
    private static double shapePsi(Regression fit) {
        double noise = noisePsi(fit);
        return Math.sqrt(Math.max(0, fit.residualSquares() / fit.size() - noise * noise));
    }

    private static double noisePsi(Regression fit) {
        double squares = 0;
        for (int i = 1; i < fit.size(); i++) {
            double change = fit.residual(i) - fit.residual(i - 1);
            squares += change * change;
        }
        return Math.sqrt(squares / (2 * (fit.size() - 1)));
    }

    /** Standard normal score of the number of runs of one sign. */
    private static double runs(Regression fit) {
        double above = 0;
        double runs = 1;
        for (int i = 0; i < fit.size(); i++) {
            boolean positive = fit.residual(i) > 0;
            above += positive ? 1 : 0;
            runs += i > 0 && positive != fit.residual(i - 1) > 0 ? 1 : 0;
        }
        double n = fit.size();
        double pairs = 2 * above * (n - above);
        double variance = pairs * (pairs - n) / (n * n * (n - 1));
        return variance > 0 ? (runs - 1 - pairs / n) / Math.sqrt(variance) : 0;
    }

    private static boolean swings(Regression fit) {
        double limit = Math.max(SWING_SDS / Math.sqrt(3) * noisePsi(fit), 1e-9);
        double[] turns = new double[fit.size()];
        int n = 0;
        int side = 0;
        for (int i = 1; i + 1 < fit.size(); i++) {
            double mean = (fit.residual(i - 1) + fit.residual(i) + fit.residual(i + 1)) / 3;
            int now = mean > limit ? 1 : mean < -limit ? -1 : side;
            if (now != side) {
                turns[n++] = fit.x(i);
                side = now;
            }
        }
        return n >= LEAST_SWINGS && even(turns, n);
    }

    /** Whether the times between turns are alike. */
    private static boolean even(double[] turns, int n) {
        double sum = 0;
        double squares = 0;
        for (int i = 1; i < n; i++) {
            double step = turns[i] - turns[i - 1];
            sum += step;
            squares += step * step;
        }
        double mean = sum / (n - 1);
        return Math.sqrt(Math.max(0, squares / (n - 1) - mean * mean)) < EVEN * mean;
    }

    private static boolean twoClimbs(Regression fit) {
        int stride = (fit.size() + MOST_FITTED - 1) / MOST_FITTED;
        int n = (fit.size() + stride - 1) / stride;
        double[] x = new double[n];
        double[] y = new double[n];
        double one = 0;
        for (int i = 0; i < n; i++) {
            x[i] = fit.x(i * stride);
            y[i] = fit.y(i * stride);
            one += fit.residual(i * stride) * fit.residual(i * stride);
        }
        double squares = one;
        int parameters = fit.freeParameters();
        return TwoClimbs.fit(x, y)
                .filter(two -> two.residualSquares() < MUCH_LESS * squares)
                .filter(two -> byChance(squares, parameters, two) < BY_CHANCE)
                .isPresent();
    }

    /**
     * How likely the better fit is by chance alone: the F test.
     *
     * @param squares residual squares of the simpler curve over the same readings
     * @param parameters how many the simpler curve has
     */
    static double byChance(double squares, int parameters, Regression better) {
        int added = better.freeParameters() - parameters;
        double f =
                (squares - better.residualSquares())
                        / added
                        / (better.residualSquares() / better.degreesOfFreedom());
        if (added < 1 || !(f > 0)) {
            return 1;
        }
        return Double.isFinite(f)
                ? 1 - new FDistribution(added, better.degreesOfFreedom()).cumulativeProbability(f)
                : 0;
    }
}
