package leat.bench.line;

import leat.bench.water.Orifice;
import leat.bench.water.Resistance;
import leat.bench.water.Units;
import leat.bench.water.Water;

/**
 * Where water leaves the line other than into the intensifier: the bleed that is open at rest, and
 * a leak to the floor. Thread-confined. All figures invented but the law of the hole.
 */
final class Openings {

    private static final double BLEED_AT = 100 * Units.PSI;
    private static final double LINEAR_SHARE = 0.1;

    /** The hole of the worst leak: 7 litres a minute at 55 psi. */
    private static final Orifice WORST_LEAK = new Orifice(3.6e-3);

    private final Resistance bleed;
    private final Resistance worstLeak;
    private double leak;

    Openings(Build build, Water water) {
        bleed =
                Resistance.through(
                        build.bleedLitresPerMinute() * Units.LITRE_PER_MINUTE,
                        BLEED_AT,
                        LINEAR_SHARE);
        worstLeak = Resistance.through(WORST_LEAK.flow(BLEED_AT, water), BLEED_AT, LINEAR_SHARE);
    }

    Resistance bleed() {
        return bleed;
    }

    /** Flow through the open bleed, m3/s, outwards only. */
    double bled(double filtered) {
        return filtered > 0 ? bleed.flow(filtered) : 0;
    }

    /** Flow to the floor, m3/s, outwards only. */
    double leaked(double boosted) {
        return leak > 0 && boosted > 0 ? leak * worstLeak.flow(boosted) : 0;
    }

    /** Severity is the share of the worst hole's area. */
    void leak(double severity) {
        leak = severity;
    }
}
