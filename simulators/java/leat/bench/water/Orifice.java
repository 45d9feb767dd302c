package leat.bench.water;

/**
 * A sharp-edged hole that water is pressed through. Immutable.
 *
 * @param diameter m, above 0
 */
public record Orifice(double diameter) {

    /** Discharge coefficient; sharp-edged holes have 0.60 to 0.62 (textbook figure). */
    static final double DISCHARGE = 0.61;

    public Orifice {
        if (!(diameter > 0)) {
            throw new IllegalArgumentException("a hole is above 0 wide: " + diameter);
        }
    }

    public double area() {
        return Math.PI / 4 * diameter * diameter;
    }

    /** Flow in m3/s at a pressure difference of 0 or more in Pa. */
    public double flow(double pressure, Water water) {
        return DISCHARGE * area() * Math.sqrt(2 * pressure / water.density());
    }
}
