package leat.measure;

import org.hipparchus.special.Erf;

/** The standard normal distribution. */
final class Normal {

    private static final double SQRT_2 = Math.sqrt(2);

    private Normal() {}

    static double density(double z) {
        return Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    /** Share below {@code z}. */
    static double below(double z) {
        return Erf.erfc(-z / SQRT_2) / 2;
    }

    /** The point below which a share lies. */
    static double quantile(double share) {
        return SQRT_2 * Erf.erfInv(2 * share - 1);
    }
}
