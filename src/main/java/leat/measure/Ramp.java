package leat.measure;

/**
 * The boost proper: the climb from the inlet pressure to the top, between its 10 and 90 %, as a
 * straight line, and how it bends. Immutable.
 *
 * <p>A pump that gives the same flow at any pressure fills the hoses along a straight line until
 * the regulator opens; one that loses flow to its slip climbs more and more slowly, trapped air
 * lets it climb ever faster. Unlike the duration the rate does not depend on how high the level is
 * set.
 *
 * @param psiPerSecond of the straight line by least squares
 * @param shape how it bends; {@link Shape#UNKNOWN} where there is no line
 */
record Ramp(Figure psiPerSecond, Shape shape) {

    /** The course of a climb between its 10 and its 90 %. */
    enum Shape {
        SLOWING,
        STRAIGHT,
        QUICKENING,
        UNKNOWN
    }

    /**
     * A climb is straight while the slopes at its two ends are within this ratio, which keeps it
     * within 3 % of a line; a figure of this code, no source.
     */
    private static final double STRAIGHT = 1.5;

    /**
     * @param curve readings through a median of three, which leaves a climb as it is
     * @param fromInlet the crossings of 10 and 90 % between the inlet pressure and the top
     */
    static Ramp of(Stretch curve, Crossings fromInlet, Noise noise) {
        if (!fromInlet.durationSeconds().isPresent()) {
            return absent(fromInlet.durationSeconds().absentBecause());
        }
        double first = fromInlet.t10().get();
        double half = fromInlet.durationSeconds().get() / 2;
        Stretch part = curve.part(first, first + 2 * half);
        if (part.size() < Parabola.LEAST_READINGS) {
            return absent(Absence.TOO_SLOW_FOR_RISE);
        }
        double[] c = Parabola.coefficients(part, 0, part.size(), first + half, half);
        double phase = noise.intervalSeconds() / Math.sqrt(12);
        double middleSd =
                Math.hypot(phase, Math.hypot(fromInlet.t10().sd(), fromInlet.t90().sd()) / 2);
        double byMiddle = 2 * c[2] / half / half * middleSd;
        return new Ramp(rate(part, byMiddle, noise), shape(c[1], 2 * c[2]));
    }

    private static Ramp absent(Absence because) {
        return new Ramp(Figure.absent(because), Shape.UNKNOWN);
    }

    private static Shape shape(double slope, double half) {
        double begin = slope - half;
        double end = slope + half;
        if (end < begin / STRAIGHT) {
            return Shape.SLOWING;
        }
        return begin < end / STRAIGHT ? Shape.QUICKENING : Shape.STRAIGHT;
    }

    /**
     * Straight line by least squares.
     *
     * @param byMiddle what a climb that bends has for another slope a little earlier or later, psi
     *     a second
     */
    private static Figure rate(Stretch part, double byMiddle, Noise noise) {
        double middle = 0;
        for (int i = 0; i < part.size(); i++) {
            middle += part.second(i) / part.size();
        }
        double products = 0;
        double squares = 0;
        for (int i = 0; i < part.size(); i++) {
            double off = part.second(i) - middle;
            products += off * part.psi(i);
            squares += off * off;
        }
        double reading = Math.max(noise.sdPsi(), noise.stepPsi() / Math.sqrt(12));
        double sd = Math.hypot(reading / Math.sqrt(squares), byMiddle);
        return Figure.of(products / squares, Figure.NORMAL_95 * sd);
    }
}
