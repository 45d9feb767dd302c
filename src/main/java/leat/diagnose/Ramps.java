package leat.diagnose;

/**
 * How a difference is counted: piece by piece, so that each piece can have a weight of its own and
 * the whole stays monotone and bounded. The first pieces count how sure a difference is, the others
 * how big.
 */
final class Ramps {

    /** Pieces of one side, above or below what is usual. */
    static final int PIECES = 5;

    /** Both sides: first the pieces above, then those below. */
    static final int COUNT = 2 * PIECES;

    private static final double[] SURE = {0, 2, 5};
    private static final double[] BIG = {0, 4, 16, 60};

    private Ramps() {}

    /** Each piece from 0 to 1. */
    static double[] of(Evidence evidence) {
        double[] ramps = new double[COUNT];
        int side = evidence.sureness() > 0 ? 0 : PIECES;
        fill(ramps, side, SURE, Math.abs(evidence.sureness()));
        fill(ramps, side + SURE.length - 1, BIG, Math.abs(evidence.excess()));
        return ramps;
    }

    private static void fill(double[] ramps, int from, double[] corners, double size) {
        for (int i = 0; i + 1 < corners.length; i++) {
            double part = (size - corners[i]) / (corners[i + 1] - corners[i]);
            ramps[from + i] = Math.max(0, Math.min(1, part));
        }
    }
}
