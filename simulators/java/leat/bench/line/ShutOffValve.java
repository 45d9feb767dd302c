package leat.bench.line;

import leat.bench.water.Resistance;
import leat.bench.water.Units;

/**
 * The solenoid valve that lets water in at a start: it takes a while to travel, may stop short, and
 * may leak when shut. Thread-confined. All figures invented.
 */
final class ShutOffValve {

    /** From here on its limit switch, which sits at the shut end, says that it is open. */
    static final double OFF_ITS_SEAT = 0.05;

    private static final double OPEN_LITRES_PER_MINUTE_AT_1_PSI = 9;
    private static final double LINEAR_SHARE = 0.4;
    private static final double SLOWEST_ADDED_SECONDS = 4;
    private static final double LEAST_OPENING = 0.12;
    private static final double MOST_LEAK_SHARE = 0.98;

    private final double usualSeconds;
    private final Resistance open;
    private final Resistance bleed;
    private double from;
    private double to;
    private double movedAt;
    private double travelSeconds;
    private double leak;
    private double slowness;
    private double opening = 1;
    private boolean wanted;

    /**
     * @param bleed what drains the line at rest: a leak is graded by the pressure that stands
     *     against it
     */
    ShutOffValve(Build build, Resistance bleed) {
        usualSeconds = build.valveSeconds();
        this.bleed = bleed;
        open =
                Resistance.through(
                        OPEN_LITRES_PER_MINUTE_AT_1_PSI * Units.LITRE_PER_MINUTE,
                        Units.PSI,
                        LINEAR_SHARE);
        travelSeconds = usualSeconds;
    }

    /** Sends it open or shut. */
    void drive(boolean openIt, double now) {
        wanted = openIt;
        from = position(now);
        to = openIt ? opening : 0;
        movedAt = now;
        travelSeconds = usualSeconds + SLOWEST_ADDED_SECONDS * slowness;
    }

    /** Open share of the passage, 0 to 1. */
    double position(double now) {
        double travelled = (now - movedAt) / travelSeconds;
        return to > from ? Math.min(from + travelled, to) : Math.max(from - travelled, to);
    }

    /** When it comes to its stop; infinitely late if it stands. */
    double nextEdge(double now) {
        double stop = movedAt + Math.abs(to - from) * travelSeconds;
        return stop > now + Sequence.JUST ? stop : Double.POSITIVE_INFINITY;
    }

    /** Flow, m3/s, at a pressure difference of either sign. */
    double flow(double difference, double now) {
        double passed = position(now) * open.flow(difference);
        return leak == 0 ? passed : passed + leak * bleed.flow(difference);
    }

    /** Pressure lost at a flow, Pa, while it stands fully open. */
    double loss(double flow) {
        return open.loss(flow);
    }

    /** Shut, it leaks so much that this share of the inlet pressure stands behind it at rest. */
    void leak(double severity) {
        double share = Math.min(severity, MOST_LEAK_SHARE);
        leak = Math.sqrt(share / (1 - share));
    }

    void slow(double severity, double now) {
        slowness = severity;
        drive(wanted, now);
    }

    void limit(double severity, double now) {
        opening = 1 - (1 - LEAST_OPENING) * severity;
        drive(wanted, now);
    }
}
