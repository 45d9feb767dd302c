package leat.measure;

import static java.util.Objects.requireNonNull;

/**
 * The rest pressure after a stop: what the gauges read with the water shut. A stop that was over
 * too soon has none, but perhaps a fall.
 *
 * @param stoppedAtMicros when the booster stopped or leat first saw the line at rest, microseconds
 *     UTC; it identifies the rest within its machine
 * @param measuredAtMicros when it was measured, microseconds UTC
 * @param boostedPsi mean boosted pressure, which should be 0
 * @param inletPsi mean inlet pressure
 * @param fallSeconds in which the boosted pressure fell from 90 to 40 % of what it ran at
 * @param settled false when the pressure was still falling as it was measured, or was not measured
 */
public record RestSpell(
        long stoppedAtMicros,
        long measuredAtMicros,
        Figure boostedPsi,
        Figure inletPsi,
        Figure fallSeconds,
        boolean settled) {

    public RestSpell {
        requireNonNull(boostedPsi, "boostedPsi");
        requireNonNull(inletPsi, "inletPsi");
        requireNonNull(fallSeconds, "fallSeconds");
    }
}
