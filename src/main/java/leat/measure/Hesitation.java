package leat.measure;

/**
 * A climb that slows down and then quickens again: something drew in it. The climb of an
 * undisturbed pressure only slows down, once it is half way.
 */
final class Hesitation {

    private static final double PIECE_SECONDS = 0.25;
    private static final int LEAST_READINGS = 3;
    private static final double PLAIN_SDS = 5;

    /** Of the range, by which the gain of a piece must fall and rise again. */
    private static final double LEAST_SHARE = 0.015;

    private Hesitation() {}

    /**
     * @param climb readings of its upper half, single wild ones taken out
     * @param noiseSd of one of them, psi
     * @param rangePsi of the whole climb
     */
    static boolean isIn(Stretch climb, double noiseSd, double rangePsi) {
        if (climb.size() < 2 * LEAST_READINGS) {
            return false;
        }
        int inPiece = (int) Math.max(LEAST_READINGS, Math.rint(PIECE_SECONDS / climb.interval()));
        double noise = PLAIN_SDS * noiseSd * Math.sqrt(6.0 / inPiece);
        double least = Math.max(LEAST_SHARE * rangePsi, noise);
        double fastest = Double.NEGATIVE_INFINITY;
        double slowest = Double.POSITIVE_INFINITY;
        for (int i = inPiece; i + inPiece <= climb.size(); i++) {
            double gain = climb.mean(i, i + inPiece) - climb.mean(i - inPiece, i);
            fastest = Math.max(fastest, gain);
            if (gain < fastest - least) {
                slowest = Math.min(slowest, gain);
            }
            if (gain > slowest + least) {
                return true;
            }
        }
        return false;
    }
}
