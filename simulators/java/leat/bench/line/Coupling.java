package leat.bench.line;

/**
 * Between motor and pump. Sound it carries all of the speed; slipping it grabs and lets go at drawn
 * times; broken it carries nothing. Thread-confined. All figures invented.
 */
final class Coupling {

    /** How quickly the pump takes up what the coupling gives it. */
    static final double TAKE_UP_SECONDS = 0.03;

    private static final double SHORTEST_DWELL_SECONDS = 0.3;
    private static final double LONGEST_DWELL_SECONDS = 2.2;

    private final Chance chance;
    private boolean broken;
    private double slipping;
    private double grip = 1;
    private long dwell;
    private double dwellEnds = Double.POSITIVE_INFINITY;

    Coupling(Chance chance) {
        this.chance = chance;
    }

    /** Share of the motor's speed that the pump is driven at. */
    double grip() {
        return broken ? 0 : grip;
    }

    double nextEdge() {
        return dwellEnds;
    }

    void breakApart(double severity) {
        broken = severity > 0;
    }

    void slip(double severity, double now) {
        slipping = severity;
        if (severity > 0) {
            change(now);
        } else {
            grip = 1;
            dwellEnds = Double.POSITIVE_INFINITY;
        }
    }

    /** Lets go, or grabs again. */
    void change(double now) {
        dwell++;
        boolean letsGo = dwell % 2 == 1;
        double depth = chance.draw(Chance.Stream.COUPLING_GRIP, dwell, 0.4, 0.8);
        grip = letsGo ? 1 - slipping * depth : 1 - 0.25 * slipping * depth;
        dwellEnds =
                now
                        + chance.draw(
                                Chance.Stream.COUPLING_DWELL,
                                dwell,
                                SHORTEST_DWELL_SECONDS,
                                LONGEST_DWELL_SECONDS);
    }
}
