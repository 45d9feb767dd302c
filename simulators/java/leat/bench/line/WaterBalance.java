package leat.bench.line;

/**
 * Where the water went since the line was made, m3.
 *
 * @param in taken from the main
 * @param out drawn, bled, leaked and drained
 * @param stored in the line more than at first
 */
record WaterBalance(double in, double out, double stored) {

    /** What cannot be accounted for, as a share of all that was moved. */
    double missingShare() {
        double moved = Math.abs(in) + Math.abs(out) + Math.abs(stored);
        return moved == 0 ? 0 : Math.abs(in - out - stored) / moved;
    }
}
