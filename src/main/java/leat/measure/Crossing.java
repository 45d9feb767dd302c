package leat.measure;

/**
 * One instant at which a climb passes a pressure, by a straight line between two points of the
 * smoothed curve. Immutable.
 *
 * @param second of the crossing
 * @param slope psi per second there
 * @param noiseSeconds standard deviation that noise leaves
 * @param averagedSeconds how much averaging may have moved it
 * @param index first point at or above the pressure
 */
record Crossing(
        double second, double slope, double noiseSeconds, double averagedSeconds, int index) {

    /** No wider average against noise than this share of the 10 to 90 % duration to a side. */
    private static final double MOST_SMOOTHED = 0.08;

    /**
     * What averaging does to a crossing of a first-order rise, times duration over half squared.
     */
    private static final double CURVATURE = Math.log(9) / 6;

    /** A slope that noise hides is taken over this share of the duration to a side. */
    private static final double SLOPE_SHARE = 0.2;

    private static final double PLAIN_SDS = 5;

    /** To a side, of the duration, where a corner is sought; and the least readings there. */
    private static final double SIDE_SHARE = 0.15;

    private static final int LEAST_AT_SIDE = 3;
    private static final double PLAIN_SLOPE_SDS = 4;

    /** How often the width is halved at a corner of the curve. */
    private static final int CORNER_ROUNDS = 3;

    /** Seconds around the crossing that are looked at again, in half widths of the average. */
    private static final double AROUND = 3;

    /**
     * A crossing once more on the curve averaged against noise, by a window of its own: as wide as
     * makes noise and the bend of the curve together move the crossing least.
     *
     * @param rough the crossing of the curve before averaging
     * @param durationSeconds about 10 to 90 %
     */
    static Crossing refined(
            Stretch curve, Crossing rough, double psi, Noise noise, double durationSeconds) {
        double half = MOST_SMOOTHED * durationSeconds;
        Crossing wide = averaged(curve, rough, psi, noise, half, durationSeconds);
        double variance = noise.sdPsi() * noise.sdPsi() * noise.intervalSeconds();
        double bend = CURVATURE / durationSeconds;
        double best = Math.pow(variance / (8 * wide.slope * wide.slope * bend * bend), 0.2);
        double width = Math.min(best, half);
        Crossing found =
                width < half ? averaged(curve, rough, psi, noise, width, durationSeconds) : wide;
        for (int i = 0; i < CORNER_ROUNDS; i++) {
            width /= 2;
            Crossing narrow = averaged(curve, rough, psi, noise, width, durationSeconds);
            double moved = Math.abs(narrow.second - found.second);
            double noiseOfMove =
                    Math.sqrt(Math.abs(square(narrow.noiseSeconds) - square(found.noiseSeconds)));
            if (!(moved > Figure.NORMAL_95 * Math.hypot(noiseOfMove, found.averagedSeconds))) {
                return found.doubted(Math.sqrt(Math.max(0, square(moved) - square(noiseOfMove))));
            }
            found = narrow.doubted(moved);
        }
        return found;
    }

    private static double square(double x) {
        return x * x;
    }

    private Crossing doubted(double seconds) {
        return new Crossing(second, slope, noiseSeconds, Math.max(averagedSeconds, seconds), index);
    }

    private static Crossing averaged(
            Stretch curve, Crossing rough, double psi, Noise noise, double half, double duration) {
        double margin =
                Math.max(
                        SLOPE_SHARE * duration + half,
                        half + AROUND * Math.max(half, noise.intervalSeconds()));
        double reach = margin + half;
        Stretch smooth =
                curve.part(rough.second - reach, rough.second + reach)
                        .smoothedInTime(half)
                        .part(rough.second - margin, rough.second + margin);
        int above = -1;
        for (int i = 1; i < smooth.size(); i++) {
            boolean crosses = smooth.psi(i - 1) < psi && smooth.psi(i) >= psi;
            if (crosses
                    && (above < 0
                            || Math.abs(smooth.second(i) - rough.second)
                                    < Math.abs(smooth.second(above) - rough.second))) {
                above = i;
            }
        }
        return above < 0 ? rough : at(smooth, above, psi, noise, half, duration);
    }

    /**
     * The crossing between the point before {@code index}, below, and the one at it, above.
     *
     * @param smooth the curve averaged over {@code halfSeconds} to either side
     */
    static Crossing at(
            Stretch smooth,
            int index,
            double psi,
            Noise noise,
            double halfSeconds,
            double durationSeconds) {
        double second = smooth.crossing(index - 1, psi);
        double sd = noise.ofMeanOnClimb(noise.readingsIn(2 * halfSeconds));
        double slope = slope(smooth, index, halfSeconds, second);
        if (!(slope * halfSeconds > PLAIN_SDS * sd)) {
            slope = slope(smooth, index, SLOPE_SHARE * durationSeconds, second);
        }
        slope = atCorner(smooth, slope, sd, second, SIDE_SHARE * durationSeconds);
        double averaged =
                halfSeconds == 0 ? 0 : CURVATURE * halfSeconds * halfSeconds / durationSeconds;
        return new Crossing(second, slope, sd / slope, averaged, index);
    }

    /** A third of the way to the lesser of the slopes to either side, where they plainly differ. */
    private static double atCorner(
            Stretch smooth, double slope, double sd, double second, double sideSeconds) {
        double least = slope;
        for (int side = -1; side <= 1; side += 2) {
            double other = second + side * sideSeconds;
            Stretch part = smooth.part(Math.min(second, other), Math.max(second, other));
            if (part.size() >= LEAST_AT_SIDE) {
                double along = slope(part, 1, Double.POSITIVE_INFINITY, second);
                double doubt = PLAIN_SLOPE_SDS * sd / part.spanSeconds();
                least = along > 0 && along < slope - doubt ? Math.min(least, along) : least;
            }
        }
        return Math.cbrt(least * slope * slope);
    }

    /** Slope by least squares over the window, never over fewer than the two points around. */
    private static double slope(Stretch smooth, int index, double half, double second) {
        int from = Math.min(index - 1, smooth.indexFrom(second - half));
        int end = Math.max(index + 1, smooth.indexAfter(second + half));
        double meanSecond = 0;
        for (int i = from; i < end; i++) {
            meanSecond += smooth.second(i) / (end - from);
        }
        double products = 0;
        double squares = 0;
        for (int i = from; i < end; i++) {
            double off = smooth.second(i) - meanSecond;
            products += off * smooth.psi(i);
            squares += off * off;
        }
        double across =
                (smooth.psi(index) - smooth.psi(index - 1))
                        / (smooth.second(index) - smooth.second(index - 1));
        double slope = products / squares;
        return slope > 0 ? slope : across;
    }
}
