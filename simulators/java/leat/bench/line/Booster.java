package leat.bench.line;

/** A pump that lifts the pressure of the feed water. Thread-confined. */
interface Booster {

    /**
     * Flow through it, m3/s, never backwards.
     *
     * @param speed as a share of the nominal
     * @param lift pressure behind it less that before it, Pa; below 0 water passes by itself
     * @param filled share of its chambers that is filled with water, not vapour
     */
    double flow(double speed, double lift, double filled);

    /** Torque it takes, as a share of the motor's rated torque. */
    double torque(double speed, double lift);

    /** How worn it is, 0 to 1. */
    void wear(double severity);
}
