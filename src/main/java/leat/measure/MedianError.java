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
     *
     * @param strokes that the readings hold; 0 for a level
     */
    static double sd(double[] psi, Noise noise, int strokes) {
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
        return Math.hypot(byNoise, Math.hypot(rounding, aroundMedian(psi, Math.max(1, strokes))));
    }

    /**
     * What the choice of sampling instants leaves open. Where a stroke takes a whole number of
     * sampling intervals, the readings of all strokes fall on the same few points of it.
     */
    private static double aroundMedian(double[] psi, int alike) {
        double[] sorted = psi.clone();
        Arrays.sort(sorted);
        int n = sorted.length;
        int above = Math.min(n - 1, n / 2 + alike);
        int below = Math.max(0, (n - 1) / 2 - alike);
        return (sorted[above] - sorted[below]) / GAPS / Math.sqrt(12);
    }
}
