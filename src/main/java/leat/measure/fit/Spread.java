package leat.measure.fit;

/** Covariance of the parameters of a fit, and Student's t for 95 %. Immutable. */
final class Spread {

    private final double[][] covariance;
    private final double student;

    /**
     * @param covariance of all parameters, square, handed over; 0 for those held
     */
    Spread(double[][] covariance, double student) {
        this.covariance = covariance;
        this.student = student;
    }

    /** A number that changes evenly with the parameters, by the derivative to each of them. */
    Estimate estimate(double value, double... gradient) {
        double variance = 0;
        for (int i = 0; i < gradient.length; i++) {
            for (int k = 0; k < gradient.length; k++) {
                variance += gradient[i] * covariance[i][k] * gradient[k];
            }
        }
        return new Estimate(value, student * Math.sqrt(Math.max(0, variance)));
    }
}
