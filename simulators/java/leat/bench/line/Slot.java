package leat.bench.line;

/** Places of the state of a line in the vector that is integrated. SI units. */
final class Slot {

    /** Flow in the supply line, m3/s. */
    static final int SUPPLY_FLOW = 0;

    /** Gauge pressures, Pa: before the valve, before and after the booster, after the filters. */
    static final int INLET = 1;

    static final int SUCTION = 2;
    static final int BOOSTED = 3;
    static final int FILTERED = 4;

    /** Lift of the regulator, share of its full lift. */
    static final int LIFT = 5;

    /** Speed of the motor, share of the synchronous; of the pump, share of its nominal. */
    static final int MOTOR = 6;

    static final int PUMP = 7;

    /** How far the intensifier has taken up its work, 0 to 1; and its piston, 0 to 1. */
    static final int LOAD = 8;

    static final int PISTON = 9;

    /** Air, m3 at one atmosphere. */
    static final int AIR = 10;

    /** Water so far, m3: taken from the main, drawn, bled, leaked, drained back. */
    static final int TAKEN = 11;

    static final int DRAWN = 12;
    static final int BLED = 13;
    static final int LEAKED = 14;
    static final int DRAINED = 15;

    static final int COUNT = 16;

    private Slot() {}
}
