package leat.measure.fit;

/**
 * Second-order rise after a delay, under- and over-damped in one form: the step response of {@code
 * y'' + 2 damping frequency y' + frequency^2 y = frequency^2 (base + amplitude)}. Immutable.
 *
 * <p>With u = frequency times the time since the delay and q = (damping^2 - 1) u^2 the step
 * response is {@code 1 - exp(-damping u) (C(q) + damping u S(q))}, where C = cosh(sqrt q) and S =
 * sinh(sqrt q) / sqrt q turn into cosine and sine for negative q and are one power series around 0:
 * there is no seam at damping 1.
 */
final class SecondOrderRise implements CurveModel {

    static final int AMPLITUDE = 0;

    /** Natural frequency, radians per second. */
    static final int FREQUENCY = 1;

    static final int DAMPING = 2;
    static final int DELAY = 3;
    static final int BASE = 4;

    private static final double SERIES = 1e-2;

    @Override
    public int parameters() {
        return 5;
    }

    @Override
    public double at(double x, double[] point, double[] slopes) {
        double since = x - point[DELAY];
        slopes[BASE] = 1;
        if (since <= 0) {
            slopes[AMPLITUDE] = 0;
            slopes[FREQUENCY] = 0;
            slopes[DAMPING] = 0;
            slopes[DELAY] = 0;
            return point[BASE];
        }
        double amplitude = point[AMPLITUDE];
        double zeta = point[DAMPING];
        double u = point[FREQUENCY] * since;
        double q = (zeta * zeta - 1) * u * u;
        double c = evenPart(zeta, u, q);
        double s = oddPart(zeta, u, q);
        double d = oddSlope(zeta, u, q, c, s);
        double left = c + zeta * u * s;
        double slope = u * s;
        slopes[AMPLITUDE] = 1 - left;
        slopes[FREQUENCY] = amplitude * slope * since;
        slopes[DELAY] = -amplitude * slope * point[FREQUENCY];
        slopes[DAMPING] =
                amplitude * (u * left - zeta * u * u * s - u * s - 2 * zeta * zeta * u * u * u * d);
        return point[BASE] + amplitude * (1 - left);
    }

    /** The step response at u = frequency times time, from 0 towards 1. */
    static double step(double zeta, double u) {
        double q = (zeta * zeta - 1) * u * u;
        return 1 - evenPart(zeta, u, q) - zeta * u * oddPart(zeta, u, q);
    }

    /** exp(-zeta u) C(q), with the exponents put together before they can overflow. */
    private static double evenPart(double zeta, double u, double q) {
        if (q <= 0) {
            return Math.exp(-zeta * u) * Math.cos(Math.sqrt(-q));
        }
        double root = Math.sqrt(q);
        return (Math.exp(slowExponent(zeta, u, root)) + Math.exp(-zeta * u - root)) / 2;
    }

    /** exp(-zeta u) S(q). */
    private static double oddPart(double zeta, double u, double q) {
        if (Math.abs(q) < SERIES) {
            return Math.exp(-zeta * u) * (1 + q / 6 * (1 + q / 20 * (1 + q / 42 * (1 + q / 72))));
        }
        if (q < 0) {
            double root = Math.sqrt(-q);
            return Math.exp(-zeta * u) * Math.sin(root) / root;
        }
        double root = Math.sqrt(q);
        return (Math.exp(slowExponent(zeta, u, root)) - Math.exp(-zeta * u - root)) / (2 * root);
    }

    /** exp(-zeta u) dS/dq. */
    private static double oddSlope(double zeta, double u, double q, double c, double s) {
        if (Math.abs(q) < SERIES) {
            double series = 1 + q / 10 * (1 + q / 28 * (1 + q / 54));
            return Math.exp(-zeta * u) * series / 6;
        }
        return (c - s) / (2 * q);
    }

    /** root - zeta u, without the loss of digits of a difference; root^2 - (zeta u)^2 is -u^2. */
    private static double slowExponent(double zeta, double u, double root) {
        return -u * u / (root + zeta * u);
    }
}
