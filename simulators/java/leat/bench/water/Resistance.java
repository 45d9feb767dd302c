package leat.bench.water;

/**
 * What flow costs: pressure lost is {@code linear} x flow + {@code quadratic} x flow x |flow|, the
 * seeping and the turbulent part of any restriction. Unlike a bare square root its flow has a
 * finite slope at nothing. Immutable.
 *
 * @param linear Pa s/m3, above 0
 * @param quadratic Pa s2/m6, above 0
 */
public record Resistance(double linear, double quadratic) {

    public Resistance {
        if (!(linear > 0 && quadratic > 0)) {
            throw new IllegalArgumentException("both parts must be above 0: " + linear);
        }
    }

    /**
     * A restriction known by one working point.
     *
     * @param flow m3/s there, above 0
     * @param loss Pa there, above 0
     * @param linearShare share of that loss that is linear, above 0 and below 1
     */
    public static Resistance through(double flow, double loss, double linearShare) {
        return new Resistance(linearShare * loss / flow, (1 - linearShare) * loss / (flow * flow));
    }

    /** Pressure lost, Pa, at a flow of either sign. */
    public double loss(double flow) {
        return (linear + quadratic * Math.abs(flow)) * flow;
    }

    /** Flow, m3/s, at a pressure difference of either sign. */
    public double flow(double pressure) {
        double size = Math.abs(pressure);
        return 2 * pressure / (linear + Math.sqrt(linear * linear + 4 * quadratic * size));
    }

    /** The same restriction with every loss that many times as great. */
    public Resistance times(double factor) {
        return new Resistance(linear * factor, quadratic * factor);
    }

    /** This one and another behind it. */
    public Resistance then(Resistance other) {
        return new Resistance(linear + other.linear, quadratic + other.quadratic);
    }
}
