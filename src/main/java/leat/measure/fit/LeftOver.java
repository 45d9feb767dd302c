package leat.measure.fit;

/**
 * What is left of a rise when its fitted curve is taken away: noise, or a shape that the curve does
 * not have. The tests are the runs test and the lag-1 autocorrelation of the NIST/SEMATECH
 * e-Handbook, section 1.3.5; the figures are of this code and tested.
 */
final class LeftOver {

    /** Under so many readings nothing can be said, and noise is supposed. */
    private static final int LEAST_READINGS = 20;

    private static final double SIGNIFICANT = 2.576;
    private static final double LEAST_SHARE = 0.005;

    private LeftOver() {}

    /**
     * Whether it is a shape: both tests say so (too few runs of one sign, 0.5 % one-sided; an
     * autocorrelation above 2.576 over root n), and the part that is not noise, residual variance
     * less that of the changes between neighbours, is more than one step of the transducer and more
     * than 0.5 % of the rise.
     *
     * @param quantumPsi step of the transducer; 0 when none is to be seen
     * @param amplitudePsi height of the rise
     */
    static boolean hasShape(Regression fit, double quantumPsi, double amplitudePsi) {
        if (fit.size() < LEAST_READINGS) {
            return false;
        }
        boolean large = shapePsi(fit) > Math.max(quantumPsi, LEAST_SHARE * amplitudePsi);
        boolean correlated = fit.autocorrelation(1) > SIGNIFICANT / Math.sqrt(fit.size());
        return large && correlated && runs(fit) <= -SIGNIFICANT;
    }

    /** Root mean square of what is not noise from reading to reading. */
    private static double shapePsi(Regression fit) {
        double squares = 0;
        for (int i = 1; i < fit.size(); i++) {
            double change = fit.residual(i) - fit.residual(i - 1);
            squares += change * change;
        }
        double noise = squares / (2 * (fit.size() - 1));
        return Math.sqrt(Math.max(0, fit.residualSquares() / fit.size() - noise));
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
}
