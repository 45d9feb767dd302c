package leat.measure.fit;

/** A curve over time with adjustable parameters, as a least-squares fit needs it. Immutable. */
interface CurveModel {

    /** How many parameters a point holds. */
    int parameters();

    /**
     * Value of the curve at {@code x}.
     *
     * @param slopes filled with the derivative by each parameter; as long as the point
     */
    double at(double x, double[] point, double[] slopes);
}
