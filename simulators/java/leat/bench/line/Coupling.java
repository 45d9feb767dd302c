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

    /** Share of the speed lost at severity 1 when it lets go, and the part of it when it grabs. */
    private static final double SHALLOWEST = 0.5;

    private static final double DEEPEST = 0.9;
    private static final double GRABBING_SHARE = 0.5;

    private final Chance chance;
    private boolean broken;
    private double slipping;
    private double depth;
    private long dwell;
    private double dwellEnds = Double.POSITIVE_INFINITY;

    Coupling(Chance chance) {
        this.chance = chance;
    }

    /** Share of the motor's speed that the pump is driven at. */
    double grip() {
        return broken ? 0 : 1 - slipping * depth;
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
        double drawn = chance.draw(Chance.Stream.COUPLING_GRIP, dwell, SHALLOWEST, DEEPEST);
        depth = letsGo ? drawn : GRABBING_SHARE * drawn;
        dwellEnds =
                now
                        + chance.draw(
                                Chance.Stream.COUPLING_DWELL,
                                dwell,
                                SHORTEST_DWELL_SECONDS,
                                LONGEST_DWELL_SECONDS);
    }
}
