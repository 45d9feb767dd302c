package leat.bench.line;

import leat.bench.water.Resistance;
import leat.bench.water.Units;

/**
 * The bypass that sets the level: a spring holds it shut up to a pressure, then it lifts in
 * proportion and passes water from behind the booster to before it. One that sticks creeps while
 * the force is off by less than its friction, and dirt pushes it about. Thread-confined. All
 * figures invented.
 */
final class Regulator {

    private static final double FULL_LITRES_PER_MINUTE = 35;
    private static final double FULL_AT_LIFT = 60 * Units.PSI;
    private static final double LINEAR_SHARE = 0.2;

    /** From cracking to full lift. */
    private static final double SPAN = 20 * Units.PSI;

    /** It passes the surplus of a sound pump that far above cracking. */
    private static final double CRACKS_BELOW_SET = 4.5 * Units.PSI;

    private static final double FOLLOW_SECONDS = 0.03;
    private static final double MOST_WRONG = 50 * Units.PSI;
    private static final double MOST_FRICTION = 20 * Units.PSI / SPAN;
    private static final double FRICTION_SECONDS = 6;
    private static final double DIRT_SHARE = 0.35;

    private final double set;
    private final RegulatorKind kind;
    private final double workingSuction;
    private final Resistance full =
            Resistance.through(
                    FULL_LITRES_PER_MINUTE * Units.LITRE_PER_MINUTE, FULL_AT_LIFT, LINEAR_SHARE);
    private final Drift roughness;
    private final Drift dirt;
    private double tooHigh;
    private double tooLow;
    private double friction;

    /**
     * @param workingSuction pressure before the booster at the usual draw, Pa: one that weighs the
     *     lift is set so that the level is right then
     */
    Regulator(LineSettings settings, double workingSuction, Chance chance) {
        set = settings.setPsi() * Units.PSI;
        kind = settings.build().regulator();
        this.workingSuction = workingSuction;
        roughness = new Drift(chance, Chance.Stream.REGULATOR_FRICTION, FRICTION_SECONDS);
        dirt = new Drift(chance, Chance.Stream.REGULATOR_DIRT, FRICTION_SECONDS);
    }

    /** How fast it lifts, 1/s of its full lift. */
    double lifting(double lift, double boosted, double suction, double now) {
        double cracking = set + MOST_WRONG * (tooHigh - tooLow) - CRACKS_BELOW_SET;
        double wanted = Math.max(0, Math.min(1, (weighed(boosted, suction) - cracking) / SPAN));
        double off = wanted - lift;
        if (friction > 0) {
            off += DIRT_SHARE * MOST_FRICTION * friction * dirt.at(now);
            double band = MOST_FRICTION * friction * (0.25 + 0.2 * roughness.at(now));
            off *= off * off / (off * off + band * band);
        }
        return off / FOLLOW_SECONDS;
    }

    private double weighed(double boosted, double suction) {
        return switch (kind) {
            case GAUGE -> boosted;
            case DIFFERENTIAL -> boosted - suction + workingSuction;
        };
    }

    /** Flow back to the suction side, m3/s, never the other way. */
    double flow(double lift, double difference) {
        return difference > 0 ? Math.max(lift, 0) * full.flow(difference) : 0;
    }

    void setTooHigh(double severity) {
        tooHigh = severity;
    }

    void setTooLow(double severity) {
        tooLow = severity;
    }

    void stick(double severity) {
        friction = severity;
    }
}
