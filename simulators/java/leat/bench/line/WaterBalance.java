package leat.bench.line;

/**
 * Where the water went since the line was made, m3.
 *
 * @param in taken from the main
 * @param out drawn, bled, leaked and drained
 * @param stored in the line, more than at no pressure and without air
 */
record WaterBalance(double in, double out, double stored) {}
