package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import leat.bench.line.LineState;
import leat.bench.sensor.Loop;

/**
 * What the transducers of one machine say at one moment, and what is true then.
 *
 * @param micros microseconds since the start of the scenario
 * @param machine whose
 * @param truth without lag, noise and broken wires
 * @param inletCounts converter counts, 0 to {@link Loop#FULL_COUNTS}
 * @param boostedCounts likewise
 * @param filteredCounts likewise
 */
public record Sample(
        long micros,
        String machine,
        LineState truth,
        int inletCounts,
        int boostedCounts,
        int filteredCounts) {

    public Sample {
        requireNonNull(machine, "machine");
        requireNonNull(truth, "truth");
    }

    public double seconds() {
        return micros / 1e6;
    }

    /** Inlet pressure as read, psi; -50 where the loop is broken. */
    public double inletPsi() {
        return Loop.psi(inletCounts);
    }

    /** Boosted pressure as read, psi; -50 where the loop is broken. */
    public double boostedPsi() {
        return Loop.psi(boostedCounts);
    }

    /** Filtered pressure as read, psi; -50 where the loop is broken. */
    public double filteredPsi() {
        return Loop.psi(filteredCounts);
    }

    /** The contactor's auxiliary contact. */
    public boolean running() {
        return truth.running();
    }

    /** The limit switch of the shut-off valve. */
    public boolean valveOpen() {
        return truth.valveOpen();
    }
}
