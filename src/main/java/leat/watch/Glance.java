package leat.watch;

import leat.phase.Phase;

/**
 * What a person would see on the gauges now.
 *
 * @param phase what the line is doing
 * @param tickMicros the last whole second, microseconds UTC
 * @param inletKnown whether {@code inletPsi} means anything
 * @param inletPsi latest inlet pressure
 * @param boostedKnown whether {@code boostedPsi} means anything
 * @param boostedPsi latest boosted pressure
 * @param outOfOrder readings and ticks dropped so far because they were late or repeated
 * @param ahead readings dropped so far because they were stamped in the future
 * @param disbelieved readings so far that count as taken at their arrival, because their sensor's
 *     clock was too far off
 */
public record Glance(
        Phase phase,
        long tickMicros,
        boolean inletKnown,
        double inletPsi,
        boolean boostedKnown,
        double boostedPsi,
        long outOfOrder,
        long ahead,
        long disbelieved) {}
