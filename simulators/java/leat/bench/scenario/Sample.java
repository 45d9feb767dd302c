package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import leat.bench.line.LineState;
import leat.bench.sensor.Loops;
import leat.bench.sensor.Tap;

/**
 * What the transducers of one machine say at one moment, and what is true then.
 *
 * @param micros microseconds since the start of the scenario
 * @param machine whose
 * @param truth without lag, noise and broken wires
 * @param inletCounts converter counts, from 0
 * @param boostedCounts likewise
 * @param filteredCounts likewise
 * @param loops what the counts stand for
 */
public record Sample(
        long micros,
        String machine,
        LineState truth,
        int inletCounts,
        int boostedCounts,
        int filteredCounts,
        Loops loops) {

    public Sample {
        requireNonNull(machine, "machine");
        requireNonNull(truth, "truth");
        requireNonNull(loops, "loops");
    }

    /** One whose loops are the usual ones. */
    public Sample(
            long micros,
            String machine,
            LineState truth,
            int inletCounts,
            int boostedCounts,
            int filteredCounts) {
        this(micros, machine, truth, inletCounts, boostedCounts, filteredCounts, Loops.USUAL);
    }

    /** Converter counts of one tap. */
    public int counts(Tap tap) {
        return switch (tap) {
            case INLET -> inletCounts;
            case BOOSTED -> boostedCounts;
            case FILTERED -> filteredCounts;
        };
    }

    /** Pressure of one tap as read, psi; -50 of a usual one whose loop is broken. */
    public double psi(Tap tap) {
        return loops.at(tap).psi(counts(tap));
    }

    /** Current of one tap as read, mA. */
    public double milliamps(Tap tap) {
        return loops.at(tap).milliamps(counts(tap));
    }

    public double seconds() {
        return micros / 1e6;
    }

    /** Inlet pressure as read, psi. */
    public double inletPsi() {
        return psi(Tap.INLET);
    }

    /** Boosted pressure as read, psi. */
    public double boostedPsi() {
        return psi(Tap.BOOSTED);
    }

    /** Filtered pressure as read, psi. */
    public double filteredPsi() {
        return psi(Tap.FILTERED);
    }

    /** The contactor's auxiliary contact. */
    public boolean running() {
        return truth.running();
    }

    /** The contact of the jet's valve. */
    public boolean cutting() {
        return truth.cutting();
    }

    /** The limit switch of the shut-off valve. */
    public boolean valveOpen() {
        return truth.valveOpen();
    }
}
