package leat.measure;

import static java.util.Objects.requireNonNull;

/**
 * The numbers of one start of the booster. Pressures psi gauge, times seconds.
 *
 * @param startedAtMicros the start command or valve opening where wired, else the first departure
 *     from the base level; microseconds UTC. It identifies the startup within its machine
 * @param measuredAtMicros when it was measured, microseconds UTC
 * @param basePsi boosted level before the start
 * @param topPsi boosted level that the start reached
 * @param inletRestPsi inlet level before the start
 * @param inletRunningPsi inlet level after the start
 * @param deadSeconds start until the boosted pressure leaves its base; absent without a run signal
 * @param riseSeconds 10 to 90 % of base to top, linear interpolation between samples
 * @param riseFromInletSeconds 10 to 90 % of inlet pressure to top: the boost without the fill
 * @param startTo90Seconds start until 90 % of base to top; trapped air moves this most
 * @param overshootPercent highest pressure above the top, in percent of top minus base
 * @param ratio top over inlet running, gauge over gauge
 * @param doubleSeconds start until boosted is twice the inlet pressure
 * @param risen false when no rise to a level was seen in the time allowed
 */
public record Startup(
        long startedAtMicros,
        long measuredAtMicros,
        Figure basePsi,
        Figure topPsi,
        Figure inletRestPsi,
        Figure inletRunningPsi,
        Figure deadSeconds,
        Figure riseSeconds,
        Figure riseFromInletSeconds,
        Figure startTo90Seconds,
        Figure overshootPercent,
        Figure ratio,
        Figure doubleSeconds,
        boolean risen) {

    public Startup {
        requireNonNull(basePsi, "basePsi");
        requireNonNull(topPsi, "topPsi");
        requireNonNull(inletRestPsi, "inletRestPsi");
        requireNonNull(inletRunningPsi, "inletRunningPsi");
        requireNonNull(deadSeconds, "deadSeconds");
        requireNonNull(riseSeconds, "riseSeconds");
        requireNonNull(riseFromInletSeconds, "riseFromInletSeconds");
        requireNonNull(startTo90Seconds, "startTo90Seconds");
        requireNonNull(overshootPercent, "overshootPercent");
        requireNonNull(ratio, "ratio");
        requireNonNull(doubleSeconds, "doubleSeconds");
    }
}
