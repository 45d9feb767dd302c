package leat.bench.water;

/**
 * Water at a temperature, near atmospheric pressure. Immutable.
 *
 * @param celsius 0.01 to 60 C
 * @param density kg/m3; formula of Tanaka et al., Metrologia 38 (2001) 301, from memory
 * @param viscosity Pa s; formula of IAPWS R12-08 for 0.1 MPa, from memory
 * @param vapourPressure Pa absolute; IAPWS-IF97 region 4, coefficients from memory, checked against
 *     its table 35
 */
public record Water(double celsius, double density, double viscosity, double vapourPressure) {

    private static final double KELVIN = 273.15;

    public Water {
        if (!(density > 0 && viscosity > 0 && vapourPressure > 0)) {
            throw new IllegalArgumentException("no such water at " + celsius + " C");
        }
    }

    /**
     * Water of a temperature.
     *
     * @param celsius 0.01 to 60 C: what comes out of a main, with room to spare
     */
    public static Water at(double celsius) {
        if (!(celsius >= 0.01 && celsius <= 60)) {
            throw new IllegalArgumentException("water must be 0.01 to 60 C: " + celsius);
        }
        return new Water(
                celsius,
                densityAt(celsius),
                viscosityAt(celsius + KELVIN),
                vapourPressureAt(celsius + KELVIN));
    }

    private static double densityAt(double celsius) {
        double fromDensest = celsius - 3.983035;
        return 999.974950
                * (1
                        - fromDensest
                                * fromDensest
                                * (celsius + 301.797)
                                / (522528.9 * (celsius + 69.34881)));
    }

    private static double viscosityAt(double kelvin) {
        double t = kelvin / 300;
        return 1e-6
                * (280.68 * StrictMath.pow(t, -1.9)
                        + 511.45 * StrictMath.pow(t, -7.7)
                        + 61.131 * StrictMath.pow(t, -19.6)
                        + 0.45903 * StrictMath.pow(t, -40));
    }

    /** Saturation pressure in Pa, 273.16 to 647 K. */
    static double vapourPressureAt(double kelvin) {
        double t = kelvin - 0.23855557567849 / (kelvin - 650.17534844798);
        double a = t * t + 1167.0521452767 * t - 724213.16703206;
        double b = -17.073846940092 * t * t + 12020.82470247 * t - 3232555.0322333;
        double c = 14.91510861353 * t * t - 4823.2657361591 * t + 405113.40542057;
        double root = 2 * c / (-b + Math.sqrt(b * b - 4 * a * c));
        return 1e6 * root * root * root * root;
    }
}
