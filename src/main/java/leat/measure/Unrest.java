package leat.measure;

import leat.measure.absence.Absence;
import leat.wire.State;

/**
 * How much the boosted level of a run moves from second to second by itself: what it does along
 * with the inlet is taken off. Whoever draws water, and a supply that sways, take both down
 * together; a regulator that sticks and a coupling that slips do not. Thread-confined.
 */
final class Unrest {

    /** A level is compared with itself within so many seconds: waves show, drift does not. */
    private static final long BLOCK_SECONDS = 10;

    private static final long LEAST_FREE = 4;

    /** The last seconds in a row, as differences from the first of them. */
    private PairSums block = PairSums.NONE;

    private double inletFrom;
    private double boostedFrom;

    /** Of the blocks before, about the mean of each. */
    private PairSums before = PairSums.NONE;

    /** Variance of noise in the mean of a second. */
    private final Moments noise = new Moments();

    /**
     * Means of a second.
     *
     * @param noisePsi standard deviation of the noise in the boosted one, psi
     */
    void add(double inlet, double boosted, double noisePsi) {
        if (block.free() == 0) {
            inletFrom = inlet;
            boostedFrom = boosted;
        }
        block = block.and(inlet - inletFrom, boosted - boostedFrom);
        noise.add(noisePsi * noisePsi);
        if (block.free() == BLOCK_SECONDS) {
            breakOff();
        }
    }

    /** The next second does not follow on the last one. */
    void breakOff() {
        before = before.plus(block.centred());
        block = PairSums.NONE;
    }

    /**
     * Standard deviation of the means of seconds about that of ten in a row, psi, without what
     * follows the inlet; its uncertainty is what noise does to it.
     */
    Figure psi() {
        PairSums seen = before.plus(block.centred());
        return seen.free() < LEAST_FREE
                ? Figure.absent(Absence.STEADY_TOO_SHORT)
                : Wander.sd(seen.squaresAlone() / seen.free(), 0, noise.mean(), seen.free());
    }

    void clear() {
        block = PairSums.NONE;
        before = PairSums.NONE;
        noise.clear();
    }

    void keep(State state) {
        block = state.keep("block", PairSums.class, block);
        inletFrom = state.keep("inletFrom", inletFrom);
        boostedFrom = state.keep("boostedFrom", boostedFrom);
        before = state.keep("before", PairSums.class, before);
        state.part("noise", noise::keep);
    }
}
