package leat.bench.line;

import leat.bench.water.TrappedAir;
import leat.bench.water.Units;

/**
 * The air in the line, as a volume at one atmosphere: some always stays, more comes with service,
 * drawn water carries it off, and a line that drains at rest takes some again. Immutable. All
 * figures invented.
 */
final class Air {

    /** Between slow and quick squeezing. */
    static final TrappedAir LAW = new TrappedAir(1.2);

    /** Where it sits: before the filters, and in their housings. */
    static final double BEFORE_FILTERS = 0.4;

    static final double IN_FILTERS = 1 - BEFORE_FILTERS;

    private static final double MOST_AFTER_SERVICE = 3.2e-3;

    /** Share of the usual air that no flow carries off. */
    private static final double CLINGING_SHARE = 0.6;

    /** Water drawn while the loose air falls to 1/e. */
    private static final double CARRIED_OFF_BY = 3e-3;

    private static final double DRAIN_BACK_SECONDS = 20;
    private static final double DRAINS_BELOW = Units.PSI;

    private final double usual;

    Air(Build build) {
        usual = build.airMl() * Units.MILLILITRE;
    }

    /** In a line that was drained and filled often. */
    double usual() {
        return usual;
    }

    /** After a service of that carelessness, 0 to 1. */
    double afterService(double severity) {
        return usual + MOST_AFTER_SERVICE * severity;
    }

    /** How fast drawn water carries it off, m3/s, 0 or more. */
    double carriedOff(double air, double drawn) {
        return Math.max(air - CLINGING_SHARE * usual, 0) * drawn / CARRIED_OFF_BY;
    }

    /** How fast it comes into a line that stands without pressure, m3/s, 0 or more. */
    double drainedIn(double air, double filtered) {
        double empty = Smooth.step(1 - filtered / DRAINS_BELOW);
        return Math.max(usual - air, 0) * empty / DRAIN_BACK_SECONDS;
    }
}
