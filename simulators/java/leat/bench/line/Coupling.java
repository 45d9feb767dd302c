package leat.bench.line;

import leat.bench.water.Units;

/**
 * Between motor and pump. Sound it carries all of the speed. One that slips carries a limited
 * torque only, so that it gives way to the pressure behind the pump, and it grabs and lets go at
 * drawn times; broken it carries nothing. Thread-confined. All figures invented.
 */
final class Coupling {

    /** How quickly the pump takes up what the coupling gives it. */
    static final double TAKE_UP_SECONDS = 0.03;

    private static final double SHORTEST_DWELL_SECONDS = 0.3;
    private static final double LONGEST_DWELL_SECONDS = 2.2;

    /** Lift that it can just drive the pump against, at severity 0 and 1. */
    private static final double HOLDS_AT_BEST = 75 * Units.PSI;

    private static final double HOLDS_AT_WORST = 15 * Units.PSI;

    /**
     * How much less that is when it has let go, and the part of it by which it is more when not.
     */
    private static final double LEAST_LOSS = 4 * Units.PSI;

    private static final double MOST_LOSS = 14 * Units.PSI;
    private static final double GRABBING_SHARE = 0.4;

    /** From turning with the motor to standing still. */
    private static final double SLIPPING_RANGE = 12 * Units.PSI;

    private final Chance chance;
    private boolean broken;
    private double slipping;
    private double loss;
    private long dwell;
    private double dwellEnds = Double.POSITIVE_INFINITY;

    Coupling(Chance chance) {
        this.chance = chance;
    }

    /**
     * Share of the motor's speed that the pump is driven at.
     *
     * @param lift pressure behind the pump less that before it, Pa
     */
    double grip(double lift) {
        if (broken || slipping == 0) {
            return broken ? 0 : 1;
        }
        double holds = HOLDS_AT_BEST + slipping * (HOLDS_AT_WORST - HOLDS_AT_BEST) - loss;
        return 1 - Smooth.step((lift - holds) / SLIPPING_RANGE + 0.5);
    }

    double nextEdge() {
        return dwellEnds;
    }

    void breakApart(double severity) {
        broken = severity > 0;
    }

    /** Changes how badly it slips; whether it has let go just now stays as it is. */
    void slip(double severity, double now) {
        if (severity > 0 && slipping == 0) {
            change(now);
        } else if (severity == 0) {
            dwellEnds = Double.POSITIVE_INFINITY;
        }
        slipping = severity;
    }

    /** Lets go, or grabs again. */
    void change(double now) {
        dwell++;
        boolean letsGo = dwell % 2 == 1;
        double drawn = chance.draw(Chance.Stream.COUPLING_GRIP, dwell, LEAST_LOSS, MOST_LOSS);
        loss = letsGo ? drawn : -GRABBING_SHARE * drawn;
        dwellEnds =
                now
                        + chance.draw(
                                Chance.Stream.COUPLING_DWELL,
                                dwell,
                                SHORTEST_DWELL_SECONDS,
                                LONGEST_DWELL_SECONDS);
    }
}
