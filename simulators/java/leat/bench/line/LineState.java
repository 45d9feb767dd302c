package leat.bench.line;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * What is true in the line at one moment, before any transducer sees it. Pressures are gauge psi
 * and may be below 0 where the booster draws on a shut supply.
 *
 * @param inletPsi where the inlet gauge sits
 * @param boostedPsi after the booster
 * @param filteredPsi after the filters
 * @param running the machine is switched on
 * @param valveOpen the shut-off valve is off its seat
 * @param cutting the jet is on
 * @param inside what no gauge shows; empty where the model does not know
 */
public record LineState(
        double inletPsi,
        double boostedPsi,
        double filteredPsi,
        boolean running,
        boolean valveOpen,
        boolean cutting,
        Optional<Inside> inside) {

    public LineState {
        requireNonNull(inside, "inside");
    }

    /** What a model knows that has pressures only; it cuts while it runs. */
    public LineState(
            double inletPsi,
            double boostedPsi,
            double filteredPsi,
            boolean running,
            boolean valveOpen) {
        this(inletPsi, boostedPsi, filteredPsi, running, valveOpen, running, Optional.empty());
    }
}
