package leat.measure;

import leat.measure.absence.Absence;
import leat.wire.State;

/**
 * Whether inlet and boosted pressure change together from second to second, or against each other.
 * Thread-confined.
 */
final class Sway {

    private static final long LEAST_CHANGES = 8;

    private double inletPsi = Double.NaN;
    private double boostedPsi = Double.NaN;
    private long changes;
    private double inletSquares;
    private double boostedSquares;
    private double products;

    /** Means of a second. */
    void add(double inlet, double boosted) {
        if (!Double.isNaN(inletPsi)) {
            double byInlet = inlet - inletPsi;
            double byBoosted = boosted - boostedPsi;
            changes++;
            inletSquares += byInlet * byInlet;
            boostedSquares += byBoosted * byBoosted;
            products += byInlet * byBoosted;
        }
        inletPsi = inlet;
        boostedPsi = boosted;
    }

    /** The next second does not follow on the last one. */
    void breakOff() {
        inletPsi = Double.NaN;
        boostedPsi = Double.NaN;
    }

    /** Pearson's, about no change; with the uncertainty of its normal approximation. */
    Figure correlation() {
        double scale = Math.sqrt(inletSquares * boostedSquares);
        if (changes < LEAST_CHANGES || !(scale > 0)) {
            return Figure.absent(Absence.STEADY_TOO_SHORT);
        }
        double r = Math.max(-1, Math.min(1, products / scale));
        return Figure.of(r, Figure.NORMAL_95 * (1 - r * r) / Math.sqrt(changes - 1));
    }

    void clear() {
        breakOff();
        changes = 0;
        inletSquares = 0;
        boostedSquares = 0;
        products = 0;
    }

    void keep(State state) {
        inletPsi = state.keep("inletPsi", inletPsi);
        boostedPsi = state.keep("boostedPsi", boostedPsi);
        changes = state.keep("changes", changes);
        inletSquares = state.keep("inletSquares", inletSquares);
        boostedSquares = state.keep("boostedSquares", boostedSquares);
        products = state.keep("products", products);
    }
}
