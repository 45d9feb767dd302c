package leat.measure;

import java.util.Arrays;

/**
 * The median of some readings and how far noise moves it. Where strokes spread the readings the
 * median hangs on the few that lie near it; on a level it hangs on all. Unlike a mean the median of
 * many rounded readings is rounded itself, however wide the noise.
 */
final class MedianError {

    /** Below this the noise is no help in telling which readings lie near the median. */
    private static final double LEAST_PSI = 1e-3;

    /** Gaps between the readings to either side of the median. */
    private static final double GAPS = 2.2;

    /** With less than so much of a reading near the median, noise does not move it. */
    private static final double LEAST_NEAR = 0.3;

    private MedianError() {}

    static double median(double[] psi) {
        double[] sorted = psi.clone();
        Arrays.sort(sorted);
        int n = sorted.length;
        return (sorted[(n - 1) / 2] + sorted[n / 2]) / 2;
    }

    /**
     * Standard deviation of the median over the noise, for a course of the pressure that would come
     * again: root of sum F (1 - F) over the sum of densities, each reading a normal about itself.
     */
    static double sd(double[] psi, Noise noise) {
        double median = median(psi);
        double sd = Math.max(LEAST_PSI, Math.max(noise.sdPsi(), noise.stepPsi() / 2));
        double spread = 0;
        double density = 0;
        for (double reading : psi) {
            double z = (median - reading) / sd;
            double below = Normal.below(z);
            spread += below * (1 - below);
            density += Normal.density(z) / sd;
        }
        double byNoise = density * sd < LEAST_NEAR ? 0 : Math.sqrt(spread) / density;
        double rounding = noise.stepPsi() / Math.sqrt(12);
        return Math.hypot(byNoise, Math.hypot(rounding, aroundMedian(psi)));
    }

    /** What the choice of sampling instants leaves open. */
    private static double aroundMedian(double[] psi) {
        double[] sorted = psi.clone();
        Arrays.sort(sorted);
        int n = sorted.length;
        int above = Math.min(n - 1, n / 2 + 1);
        int below = Math.max(0, (n - 1) / 2 - 1);
        return (sorted[above] - sorted[below]) / GAPS / Math.sqrt(12);
    }
}
