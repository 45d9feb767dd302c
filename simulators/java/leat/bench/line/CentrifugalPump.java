package leat.bench.line;

import leat.bench.water.Affinity;
import leat.bench.water.Resistance;
import leat.bench.water.Units;

/**
 * Multistage centrifugal pump: most pressure at no flow, less the more flows, and all of it by the
 * affinity laws of the speed. A check valve beside it lets water pass forward where the pump
 * stands; none runs back. Thread-confined. All figures invented.
 */
final class CentrifugalPump implements Booster {

    private static final double SHUT_OFF = 85 * Units.PSI;

    /** Share of the shut-off pressure lost at the flow it is made for. */
    private static final double DROOP = 0.2;

    /** The flow it is made for, as a share of what a vane pump in its place would sweep. */
    private static final double DUTY_SHARE = 0.5;

    private static final double DROOP_LINEAR_SHARE = 0.15;

    /** Share of the shut-off pressure lost when worn out. */
    private static final double MOST_WORN = 0.55;

    private static final double TORQUE = 0.7;
    private static final double PASSAGE_LITRES_PER_MINUTE_AT_1_PSI = 7;
    private static final double PASSAGE_LINEAR_SHARE = 0.4;

    private final Resistance impeller;
    private final Resistance checkValve =
            Resistance.through(
                    PASSAGE_LITRES_PER_MINUTE_AT_1_PSI * Units.LITRE_PER_MINUTE,
                    Units.PSI,
                    PASSAGE_LINEAR_SHARE);
    private double shutOff;

    CentrifugalPump(Build build) {
        double duty = DUTY_SHARE * build.pumpLitresPerMinute() * Units.LITRE_PER_MINUTE;
        impeller = Resistance.through(duty, DROOP * SHUT_OFF, DROOP_LINEAR_SHARE);
        wear(0);
    }

    @Override
    public void wear(double severity) {
        shutOff = SHUT_OFF * (1 - MOST_WORN * severity);
    }

    @Override
    public double flow(double speed, double lift, double filled) {
        double driving = new Affinity(Math.max(speed, 0)).pressure(shutOff) * filled - lift;
        double lifted = driving > 0 ? impeller.flow(driving) : 0;
        return lift < 0 ? lifted + checkValve.flow(-lift) : lifted;
    }

    @Override
    public double torque(double speed, double lift) {
        return TORQUE * speed * speed;
    }
}
