package leat.bench.water;

/** Net positive suction head: how far water at a pump's inlet is from boiling. */
public final class SuctionHead {

    private SuctionHead() {}

    /**
     * Head available, m of water.
     *
     * @param pressure gauge at the level of the pump, Pa
     * @param velocity in the suction pipe, m/s
     */
    public static double available(double pressure, double velocity, Water water) {
        double aboveBoiling = Units.ATMOSPHERE + pressure - water.vapourPressure();
        return aboveBoiling / (water.density() * Units.GRAVITY)
                + velocity * velocity / (2 * Units.GRAVITY);
    }
}
