package leat.bench.line;

import leat.bench.water.Resistance;
import leat.bench.water.Units;
import leat.bench.water.Water;

/**
 * Rotary vane pump: each turn sweeps the same volume, and some of it slips back through the gaps,
 * in proportion to the pressure and to how thin the water is. Standing, it lets water pass forward.
 * Thread-confined. All figures invented.
 */
final class VanePump implements Booster {

    /** Lift at which {@link Build#slipShare} of the swept flow slips. */
    private static final double WORKING_LIFT = 60 * Units.PSI;

    /** Share of the swept flow that slips more at the working lift when worn out. */
    private static final double MOST_WORN = 1.2;

    private static final double WATER_OF_20_C = 1.0016e-3;
    private static final double PASSAGE_LITRES_PER_MINUTE_AT_1_PSI = 8;
    private static final double LINEAR_SHARE = 0.4;
    private static final double TORQUE_AT_WORKING_LIFT = 0.55;

    private final double swept;
    private final double newSlip;
    private final double thinness;
    private final Resistance passage;
    private double slip;

    VanePump(Build build, Water water) {
        swept = build.pumpLitresPerMinute() * Units.LITRE_PER_MINUTE;
        thinness = WATER_OF_20_C / water.viscosity();
        newSlip = build.slipShare();
        passage =
                Resistance.through(
                        PASSAGE_LITRES_PER_MINUTE_AT_1_PSI * Units.LITRE_PER_MINUTE,
                        Units.PSI,
                        LINEAR_SHARE);
        wear(0);
    }

    @Override
    public void wear(double severity) {
        slip = (newSlip + MOST_WORN * severity) * thinness * swept / WORKING_LIFT;
    }

    @Override
    public double flow(double speed, double lift, double filled) {
        double turned = swept * speed * filled;
        return lift < 0 ? turned + passage.flow(-lift) : Math.max(turned - slip * lift, 0);
    }

    @Override
    public double torque(double speed, double lift) {
        return TORQUE_AT_WORKING_LIFT * Math.max(lift, 0) / WORKING_LIFT;
    }
}
