package leat.measure;

import java.util.Optional;

/** A parabola through the crest or trough of a curve, by least squares. */
final class Parabola {

    static final int LEAST_READINGS = 5;

    /** The bend counts as plain from so many of its standard deviations on. */
    private static final double PLAIN_SDS = 3;

    /** Standard deviation of the bend over the half width and of the vertex, by root n. */
    private static final double BEND_SD = Math.sqrt(180) / 4;

    private static final double VERTEX_SD = 1.5;

    /** What a crest differs from a parabola, part of the bend over the half width; invented. */
    private static final double SHAPE = 0.01;

    private static final int ROUNDS = 2;

    private Parabola() {}

    /**
     * The pressure of the vertex; empty where the bend is not plain against the noise.
     *
     * @param second about when
     * @param halfSeconds to either side that is looked at; at least two readings
     * @param sign 1 for a crest, -1 for a trough
     */
    static Optional<Figure> at(
            Stretch curve, double second, double halfSeconds, Noise noise, int sign) {
        double half = Math.max(halfSeconds, 2.01 * noise.intervalSeconds());
        double middle = second;
        Optional<Figure> vertex = Optional.empty();
        for (int i = 0; i < ROUNDS; i++) {
            int from = curve.indexFrom(middle - half);
            int end = curve.indexAfter(middle + half);
            if (end - from < LEAST_READINGS) {
                return vertex;
            }
            double[] c = coefficients(curve, from, end, middle, half);
            double sd = noise.ofMeanOnClimb(end - from);
            if (!(-sign * c[2] > PLAIN_SDS * BEND_SD * sd)) {
                return Optional.empty();
            }
            double at = Math.max(-1, Math.min(1, -c[1] / (2 * c[2])));
            double psi = c[0] + at * (c[1] + at * c[2]);
            double u95 = Figure.NORMAL_95 * Math.hypot(VERTEX_SD * sd, SHAPE * c[2]);
            vertex = Optional.of(Figure.of(psi, u95));
            middle += at * half;
        }
        return vertex;
    }

    /** Least squares with time in half widths from the middle: value, slope, half the bend. */
    static double[] coefficients(Stretch curve, int from, int end, double middle, double half) {
        double[] powers = new double[5];
        double[] right = new double[3];
        double origin = curve.psi(from);
        for (int i = from; i < end; i++) {
            double x = (curve.second(i) - middle) / half;
            double y = curve.psi(i) - origin;
            double power = 1;
            for (int k = 0; k < powers.length; k++) {
                powers[k] += power;
                if (k < right.length) {
                    right[k] += power * y;
                }
                power *= x;
            }
        }
        double[] c = solve(powers, right);
        c[0] += origin;
        return c;
    }

    /** Cramer's rule for the three normal equations. */
    private static double[] solve(double[] p, double[] r) {
        double a = p[2] * p[4] - p[3] * p[3];
        double b = p[1] * p[4] - p[2] * p[3];
        double c = p[1] * p[3] - p[2] * p[2];
        double determinant = p[0] * a - p[1] * b + p[2] * c;
        double d = p[0] * p[4] - p[2] * p[2];
        double e = p[0] * p[3] - p[1] * p[2];
        double f = p[0] * p[2] - p[1] * p[1];
        return new double[] {
            (a * r[0] - b * r[1] + c * r[2]) / determinant,
            (-b * r[0] + d * r[1] - e * r[2]) / determinant,
            (c * r[0] - e * r[1] + f * r[2]) / determinant
        };
    }
}
