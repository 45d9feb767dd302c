package leat.bench.water;

/**
 * Air shut in with water, squeezed by pressure: p V^n = constant. Immutable.
 *
 * @param exponent 1 for slow, isothermal squeezing to 1.4 for quick, adiabatic
 */
public record TrappedAir(double exponent) {

    /** Absolute pressure, Pa, below which the law is not followed: no such vacuum in water. */
    private static final double LOWEST = 1000;

    /** Its power of 5/6 is a square root times a cube root, in half the time of a power. */
    private static final double SIX_FIFTHS = 1.2;

    public TrappedAir {
        if (!(exponent >= 1 && exponent <= 1.4)) {
            throw new IllegalArgumentException("exponent must be 1 to 1.4: " + exponent);
        }
    }

    /** Volume at a gauge pressure in Pa, as a share of the volume at one atmosphere. */
    public double squeezed(double pressure) {
        double absolute = Math.max(pressure + Units.ATMOSPHERE, LOWEST);
        double share = Units.ATMOSPHERE / absolute;
        return exponent == SIX_FIFTHS
                ? Math.sqrt(share) * StrictMath.cbrt(share)
                : StrictMath.pow(share, 1 / exponent);
    }

    /**
     * Volume that goes with each Pa more, as a share of the volume at one atmosphere, 1/Pa.
     *
     * @param squeezed {@link #squeezed} at that pressure
     */
    public double compliance(double pressure, double squeezed) {
        return squeezed / (exponent * Math.max(pressure + Units.ATMOSPHERE, LOWEST));
    }

    /**
     * Effective bulk modulus, Pa, of water with air in it.
     *
     * @param share volume of the air at one atmosphere as a share of the whole there, 0 to below 1
     * @param pressure gauge, Pa
     */
    public double bulkModulus(double share, double pressure) {
        double squeezed = squeezed(pressure);
        double air = share * squeezed;
        double water = 1 - share;
        double whole = air + water;
        double give = share * compliance(pressure, squeezed) + water / Pipe.WATER_MODULUS;
        return whole / give;
    }
}
