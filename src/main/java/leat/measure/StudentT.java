package leat.measure;

import org.hipparchus.distribution.continuous.TDistribution;

/**
 * The factor by which the standard error of a mean grows to the half width of its 95 % interval:
 * the two-sided 5 % point of Student's t.
 */
final class StudentT {

    private static final double UPPER = 0.975;

    private StudentT() {}

    /**
     * @param degrees of freedom, 1 or more
     */
    static double factor95(long degrees) {
        return new TDistribution(degrees).inverseCumulativeProbability(UPPER);
    }
}
