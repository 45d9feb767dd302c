package leat.bench.line;

/**
 * What is true in the line at one moment, before any transducer sees it. Pressures are gauge psi
 * and may be below 0 where the booster draws on a shut supply.
 *
 * @param inletPsi before the shut-off valve
 * @param boostedPsi after the booster
 * @param filteredPsi after the filters
 * @param running the booster contactor is closed
 * @param valveOpen the shut-off valve is more than half open
 */
public record LineState(
        double inletPsi,
        double boostedPsi,
        double filteredPsi,
        boolean running,
        boolean valveOpen) {}
