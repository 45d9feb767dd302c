package leat.measure;

import leat.measure.absence.Absence;

/**
 * The boost proper: the climb from the inlet pressure to the top, between its 10 and 90 %, as a
 * straight line.
 *
 * <p>A pump that gives the same flow at any pressure fills the hoses along a straight line until
 * the regulator opens; one that loses flow to its slip climbs more and more slowly, trapped air
 * lets it climb ever faster. Unlike the duration the rate does not depend on how high the level is
 * set.
 */
final class Ramp {

    private Ramp() {}

    /**
     * The slope of the straight line by least squares.
     *
     * @param curve readings through a median of three, which leaves a climb as it is
     * @param fromInlet the crossings of 10 and 90 % between the inlet pressure and the top
     */
    static Figure psiPerSecond(Stretch curve, Crossings fromInlet, Noise noise) {
        if (!fromInlet.durationSeconds().isPresent()) {
            return Figure.absent(fromInlet.durationSeconds().absentBecause());
        }
        double first = fromInlet.t10().get();
        double half = fromInlet.durationSeconds().get() / 2;
        Stretch part = curve.part(first, first + 2 * half);
        if (part.size() < Parabola.LEAST_READINGS) {
            return Figure.absent(Absence.TOO_SLOW_FOR_RISE);
        }
        double[] c = Parabola.coefficients(part, 0, part.size(), first + half, half);
        double phase = noise.intervalSeconds() / Math.sqrt(12);
        double middleSd =
                Math.hypot(phase, Math.hypot(fromInlet.t10().sd(), fromInlet.t90().sd()) / 2);
        double byMiddle = 2 * c[2] / half / half * middleSd;
        return rate(part, byMiddle, noise);
    }

    /**
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
