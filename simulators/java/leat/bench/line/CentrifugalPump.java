package leat.bench.line;

import leat.bench.water.Affinity;
import leat.bench.water.Resistance;
import leat.bench.water.Units;

/**
 * Multistage centrifugal pump: most pressure at no flow, less the more flows, and all of it by the
 * affinity laws of the speed. A check valve keeps water from running back. Thread-confined. All
 * figures invented.
 */
final class CentrifugalPump implements Booster {

    private static final double SHUT_OFF = 85 * Units.PSI;

    /** Share of the shut-off pressure lost at the flow that the intensifier draws. */
    private static final double DROOP = 0.2;

    private static final double DROOP_LINEAR_SHARE = 0.15;

    /** Share of the shut-off pressure lost when worn out. */
    private static final double MOST_WORN = 0.55;

    private static final double TORQUE = 0.7;

    private final Resistance impeller;
    private double shutOff;

    CentrifugalPump(Build build) {
        double draw = build.drawLitresPerMinute() * Units.LITRE_PER_MINUTE;
        impeller = Resistance.through(draw, DROOP * SHUT_OFF, DROOP_LINEAR_SHARE);
        wear(0);
    }

    @Override
    public void wear(double severity) {
        shutOff = SHUT_OFF * (1 - MOST_WORN * severity);
    }

    @Override
    public double flow(double speed, double lift, double filled) {
        double driving = new Affinity(Math.max(speed, 0)).pressure(shutOff) * filled - lift;
        return driving > 0 ? impeller.flow(driving) : 0;
    }

    @Override
    public double torque(double speed, double lift) {
        return TORQUE * speed * speed;
    }
}
