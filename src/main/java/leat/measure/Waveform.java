package leat.measure;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealVector;

/**
 * A repeating wave of one frequency fitted to a stretch by least squares: a straight line, the
 * fundamental and up to two harmonics. Immutable.
 */
final class Waveform {

    private static final int MOST_HARMONICS = 3;

    /** The fastest wave of the fit stays below this share of the sampling rate. */
    private static final double SAMPLED_SHARE = 0.4;

    /** Rounds of Newton's method and the width of its differences in reciprocal spans. */
    private static final int ROUNDS = 4;

    private static final double DIFFERENCE = 0.05;
    private static final double MOST_MOVED = 0.25;
    private static final double RIDGE = 1e-10;

    private final Stretch stretch;
    private final double frequency;
    private final int terms;
    private final RealVector solution;
    private final double left;

    private Waveform(Stretch stretch, double frequency) {
        this.stretch = stretch;
        this.frequency = frequency;
        double most = frequency == 0 ? 0 : SAMPLED_SHARE / stretch.interval() / frequency;
        terms = 2 + 2 * (int) Math.min(MOST_HARMONICS, most + 1e-9);
        double[][] normal = new double[terms][terms];
        double[] right = new double[terms];
        double[] row = new double[terms];
        double origin = stretch.mean(0, stretch.size());
        double middle = stretch.second(0) + stretch.spanSeconds() / 2;
        double squares = 0;
        for (int i = 0; i < stretch.size(); i++) {
            fill(row, stretch.second(i) - middle);
            double y = stretch.psi(i) - origin;
            squares += y * y;
            for (int j = 0; j < terms; j++) {
                right[j] += row[j] * y;
                for (int k = 0; k <= j; k++) {
                    normal[j][k] += row[j] * row[k];
                }
            }
        }
        solution = solve(normal, right);
        left = Math.max(0, squares - solution.dotProduct(new ArrayRealVector(right, false)));
    }

    /** The wave that leaves least unexplained, sought from a rough frequency on. */
    static Waveform around(Stretch stretch, double roughHz) {
        double width = DIFFERENCE / stretch.spanSeconds();
        double hz = roughHz;
        for (int i = 0; i < ROUNDS; i++) {
            double below = new Waveform(stretch, hz - width).left;
            double at = new Waveform(stretch, hz).left;
            double above = new Waveform(stretch, hz + width).left;
            double bend = above - 2 * at + below;
            double most = MOST_MOVED / stretch.spanSeconds();
            double step =
                    bend > 0
                            ? width * (below - above) / (2 * bend)
                            : most * Math.signum(below - above);
            hz = Math.max(2 * width, hz + Math.max(-most, Math.min(most, step)));
        }
        return new Waveform(stretch, hz);
    }

    /** Without any wave, the straight line alone. */
    static Waveform none(Stretch stretch) {
        return new Waveform(stretch, 0);
    }

    double hertz() {
        return frequency;
    }

    /** Standard deviation of what the wave leaves, psi. */
    double residualSd() {
        int unknowns = frequency == 0 ? terms : terms + 1;
        return Math.sqrt(left / Math.max(1, stretch.size() - unknowns));
    }

    /** Share of the squares about a line that the wave explains. */
    double explained(Waveform line) {
        return line.left > 0 ? Math.max(0, 1 - left / line.left) : 0;
    }

    /** What each term of the wave explains beyond a line, over what is left per sample. */
    double explainedRatio(Waveform line) {
        double explained = Math.max(0, line.left - left) / (terms - 2);
        double variance = residualSd() * residualSd();
        return variance > 0 ? explained / variance : explained > 0 ? Double.MAX_VALUE : 0;
    }

    /**
     * Standard error of the frequency under white noise: the Cramer-Rao bound of a sinusoid, a
     * harmonic counting with the square of its number.
     */
    double hertzSd() {
        double sharpness = 0;
        for (int k = 1; 2 * k < terms; k++) {
            double c = solution.getEntry(2 * k);
            double s = solution.getEntry(2 * k + 1);
            sharpness += k * k * (c * c + s * s) / 2;
        }
        return Math.sqrt(3 / (stretch.size() * sharpness))
                * residualSd()
                / (Math.PI * stretch.spanSeconds());
    }

    private void fill(double[] row, double second) {
        row[0] = 1;
        row[1] = second;
        double angle = 2 * Math.PI * frequency * second;
        double c = terms > 2 ? Math.cos(angle) : 0;
        double s = terms > 2 ? Math.sin(angle) : 0;
        for (int k = 2; k < terms; k += 2) {
            row[k] = k == 2 ? c : row[k - 2] * c - row[k - 1] * s;
            row[k + 1] = k == 2 ? s : row[k - 1] * c + row[k - 2] * s;
        }
    }

    private static RealVector solve(double[][] lower, double[] right) {
        for (int j = 0; j < lower.length; j++) {
            lower[j][j] *= 1 + RIDGE;
            for (int k = 0; k < j; k++) {
                lower[k][j] = lower[j][k];
            }
        }
        return new CholeskyDecomposition(new Array2DRowRealMatrix(lower, false), 1e-9, 1e-14)
                .getSolver()
                .solve(new ArrayRealVector(right, false));
    }
}
