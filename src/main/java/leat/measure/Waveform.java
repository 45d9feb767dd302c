package leat.measure;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealVector;

/**
 * A repeating wave fitted to a stretch by least squares: a straight line, the fundamental and
 * harmonics of it. Immutable.
 *
 * @param frequencyHz of the fundamental
 * @param explainedRatio what the wave explains of the squares per term, over the residual variance
 * @param residualSd standard deviation of what is left, psi
 * @param slopeSquares half the sum over the harmonics of squared amplitude times squared number;
 *     sharpness in time, psi squared
 * @param count samples
 */
record Waveform(
        double frequencyHz,
        double explainedRatio,
        double residualSd,
        double slopeSquares,
        int count) {

    /** Slowest and fastest strokes looked for: 0.5 to 1.5 Hz is usual, invented margin. */
    static final double SLOWEST_HZ = 0.3;

    static final double FASTEST_HZ = 3;

    /** A harmonic must stay below this share of the sampling rate. */
    static final double LEAST_SAMPLED = 0.4;

    private static final int MOST_HARMONICS = 3;
    private static final double STEPS_PER_SPAN = 8;
    private static final int REFINEMENTS = 30;
    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

    /**
     * The frequency that explains most; of those that explain nearly as much the highest, since
     * half and third of a frequency explain all that it does.
     *
     * @param psi pressures of the stretch's samples
     * @param asGood share of the most that counts as nearly as much
     */
    static Waveform strongest(Stretch steady, double[] psi, double fastestHz, double asGood) {
        double step = 1 / (STEPS_PER_SPAN * steady.spanSeconds());
        int steps = (int) ((fastestHz - SLOWEST_HZ) / step) + 1;
        double[] left = new double[steps];
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < steps; i++) {
            left[i] = new Fit(steady, psi, SLOWEST_HZ + i * step).left;
            least = Math.min(least, left[i]);
        }
        double line = new Fit(steady, psi, 0).left;
        int best = steps - 1;
        while (line - left[best] < asGood * (line - least)) {
            best--;
        }
        while (best > 0 && left[best - 1] < left[best]) {
            best--;
        }
        return refined(steady, psi, SLOWEST_HZ + best * step, step, line);
    }

    private static Waveform refined(
            Stretch steady, double[] psi, double aroundHz, double stepHz, double line) {
        double low = Math.max(SLOWEST_HZ / 2, aroundHz - stepHz);
        double high = aroundHz + stepHz;
        for (int i = 0; i < REFINEMENTS; i++) {
            double a = high - GOLDEN * (high - low);
            double b = low + GOLDEN * (high - low);
            if (new Fit(steady, psi, a).left < new Fit(steady, psi, b).left) {
                high = b;
            } else {
                low = a;
            }
        }
        Fit fit = new Fit(steady, psi, (low + high) / 2);
        double variance = fit.left / Math.max(1, psi.length - fit.terms - 1);
        double explained = (line - fit.left) / (fit.terms - 2);
        return new Waveform(
                fit.frequency,
                variance == 0 ? (explained > 0 ? Double.MAX_VALUE : 0) : explained / variance,
                Math.sqrt(variance),
                fit.slopeSquares(),
                psi.length);
    }

    /**
     * Standard error of the frequency under white noise (Cramer-Rao bound of a sinusoid, harmonics
     * weighing by their slope).
     */
    double frequencySd(double spanSeconds) {
        return Math.sqrt(3 / (count * slopeSquares)) * residualSd / (Math.PI * spanSeconds);
    }

    /** Least squares at one frequency; the straight line alone at 0. */
    private static final class Fit {
        private final double frequency;
        private final int terms;
        private final RealVector solution;
        private final double left;

        Fit(Stretch steady, double[] psi, double frequency) {
            this.frequency = frequency;
            double middle = steady.second(0) + steady.spanSeconds() / 2;
            int harmonics =
                    frequency == 0
                            ? 0
                            : (int)
                                    Math.min(
                                            MOST_HARMONICS,
                                            LEAST_SAMPLED / steady.interval() / frequency
                                                    + 1e-9);
            terms = 2 + 2 * harmonics;
            double[][] normal = new double[terms][terms];
            double[] right = new double[terms];
            double squares = 0;
            double mean = psi[0];
            double[] row = new double[terms];
            for (int i = 0; i < psi.length; i++) {
                fill(row, steady.second(i) - middle, harmonics);
                double y = psi[i] - mean;
                squares += y * y;
                for (int j = 0; j < terms; j++) {
                    right[j] += row[j] * y;
                    for (int k = 0; k <= j; k++) {
                        normal[j][k] += row[j] * row[k];
                        normal[k][j] = normal[j][k];
                    }
                }
            }
            ArrayRealVector b = new ArrayRealVector(right, false);
            for (int j = 0; j < terms; j++) {
                normal[j][j] *= 1 + 1e-10;
            }
            solution =
                    new CholeskyDecomposition(
                                    new Array2DRowRealMatrix(normal, false), 1e-9, 1e-14)
                            .getSolver()
                            .solve(b);
            left = Math.max(0, squares - solution.dotProduct(b));
        }

        private void fill(double[] row, double second, int harmonics) {
            row[0] = 1;
            row[1] = second;
            for (int k = 1; k <= harmonics; k++) {
                double angle = 2 * Math.PI * k * frequency * second;
                row[2 * k] = Math.cos(angle);
                row[2 * k + 1] = Math.sin(angle);
            }
        }

        double slopeSquares() {
            double sum = 0;
            for (int k = 1; 2 * k < terms; k++) {
                double c = solution.getEntry(2 * k);
                double s = solution.getEntry(2 * k + 1);
                sum += k * k * (c * c + s * s) / 2;
            }
            return sum;
        }
    }
}
