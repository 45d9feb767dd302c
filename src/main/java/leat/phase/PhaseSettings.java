package leat.phase;

/**
 * What finding the phase needs to know. Pressures psi gauge, times microseconds.
 *
 * @param blindMicros silence of a pressure after which the line counts as unseen
 * @param restPsi boosted pressure below which the line is empty
 * @param boostRatio boosted over inlet from which the booster must be running
 * @param boostedAlonePsi boosted pressure from which it must be running where no inlet gauge is
 *     wired
 * @param starvedPsi inlet pressure below which a collapse is a starved booster and not a stop
 * @param fallingPsiPerSecond slower than this the pressure has settled
 */
public record PhaseSettings(
        long blindMicros,
        double restPsi,
        double boostRatio,
        double boostedAlonePsi,
        double starvedPsi,
        double fallingPsiPerSecond) {}
