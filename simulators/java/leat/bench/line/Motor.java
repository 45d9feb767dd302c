package leat.bench.line;

/**
 * The induction motor of the booster, direct on line: torque by Kloss's formula (textbook, from
 * memory), which goes through its breakdown on the way up and settles a few percent under the
 * synchronous speed. Torques are shares of the rated torque, speed a share of the synchronous one.
 * Immutable; figures invented but of the size that catalogues give for less than 1 kW.
 */
final class Motor {

    private static final double BREAKDOWN = 2.6;
    private static final double BREAKDOWN_SLIP = 0.3;

    /** Seconds in which the rated torque would bring rotor and pump to synchronous speed. */
    private static final double INERTIA_SECONDS = 0.45;

    private static final double FRICTION = 0.2;

    /** Speed of the motor at which the pump is said to turn at its nominal speed. */
    static final double NOMINAL = 0.96;

    private Motor() {}

    /** Driving torque at a speed with the contactor closed. */
    static double torque(double speed) {
        double slip = 1 - speed;
        return 2
                * BREAKDOWN
                * slip
                * BREAKDOWN_SLIP
                / (slip * slip + BREAKDOWN_SLIP * BREAKDOWN_SLIP);
    }

    /**
     * How fast the speed changes, 1/s.
     *
     * @param load torque that the pump takes
     */
    static double acceleration(double speed, boolean closed, double load) {
        double drive = closed ? torque(speed) : 0;
        double standing = speed / (Math.abs(speed) + 0.02);
        return (drive - (FRICTION + load) * standing - FRICTION * speed) / INERTIA_SECONDS;
    }
}
