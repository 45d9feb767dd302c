package leat.diagnose;

/**
 * How a difference is counted: piece by piece, so that each piece can have a weight of its own and
 * the whole stays monotone and bounded. The first pieces of a side count how sure a difference is,
 * the others how big. The last piece is there of whatever was measured: that it is as usual speaks
 * against a cause that moves it, and what was not measured does not.
 */
final class Ramps {

    /** Pieces of one side, above or below what is usual. */
    static final int PIECES = 6;

    /** The piece that is there of whatever was measured, as far as a difference would show. */
    static final int MEASURED = 2 * PIECES;

    /** First the pieces above, then those below, then {@link #MEASURED}. */
    static final int COUNT = 2 * PIECES + 1;

    private static final double[] SURE = {0, 2, 5, 10};
    private static final double[] BIG = {0, 4, 16, 60};

    private Ramps() {}

    /** Each piece from 0 to 1. */
    static double[] of(Evidence evidence) {
        double[] ramps = new double[COUNT];
        int side = evidence.sureness() > 0 ? 0 : PIECES;
        fill(ramps, side, SURE, Math.abs(evidence.sureness()));
        fill(ramps, side + SURE.length - 1, BIG, Math.abs(evidence.excess()));
        ramps[MEASURED] = evidence.sharpness();
        return ramps;
    }

    private static void fill(double[] ramps, int from, double[] corners, double size) {
        for (int i = 0; i + 1 < corners.length; i++) {
            double part = (size - corners[i]) / (corners[i + 1] - corners[i]);
            ramps[from + i] = Math.max(0, Math.min(1, part));
        }
    }
}
