package leat.measure;

/**
 * The highest point of a noisy curve, averaged over a short window. The highest of many noisy means
 * lies above the true curve; what noise is expected to add is taken off, by how long the curve
 * stays near its highest point. Immutable.
 *
 * @param highest psi, with the mean over the window
 * @param second when
 */
record Extreme(Figure highest, double second) {

    /** Means this many standard deviations below the highest still had a chance to be it. */
    private static final double NEAR_SD = 2.5;

    /** Fit to simulated moving means of white noise, by the length of the plateau in windows. */
    private static final double CHANCES_PER_WINDOW = 2.5;

    /** How flat the curve is near its highest point is not known: share of what is taken off. */
    private static final double DOUBT = 0.5;

    private static final double SD_EXPONENT = -0.25;

    /** Blom's plotting position: expected highest of so many normal draws. */
    private static final double BLOM = 0.375;

    /**
     * The highest mean with its window wholly inside the stretch; absent when the stretch is
     * shorter than the window.
     *
     * @param windowSeconds length of the mean
     */
    static Extreme highest(Stretch curve, Noise noise, double windowSeconds) {
        return of(curve, noise, windowSeconds, 1);
    }

    /** The same of the lowest mean. */
    static Extreme lowest(Stretch curve, Noise noise, double windowSeconds) {
        return of(curve, noise, windowSeconds, -1);
    }

    /**
     * The highest point of a curve that may have a crest: by the parabola through the crest where
     * its bend is plain, which noise does not push up, else by the highest mean.
     *
     * @param sign 1 for the highest, -1 for the lowest
     * @param crestSeconds to either side of the crest in which it looks like a parabola
     */
    static Extreme crest(
            Stretch curve, Noise noise, double windowSeconds, double crestSeconds, int sign) {
        Extreme point = of(curve, noise, windowSeconds, sign);
        if (!point.highest.isPresent()) {
            return point;
        }
        return Parabola.at(curve.cleaned(noise), point.second, crestSeconds, noise, sign)
                .map(highest -> new Extreme(highest, point.second))
                .orElse(point);
    }

    private static Extreme of(Stretch curve, Noise noise, double windowSeconds, int sign) {
        double half = windowSeconds / 2;
        double slack = noise.intervalSeconds() / 4;
        int from = curve.size() == 0 ? 0 : curve.indexFrom(curve.second(0) + half - slack);
        int end =
                curve.size() == 0
                        ? 0
                        : curve.indexAfter(curve.second(curve.size() - 1) - half + slack);
        if (from >= end) {
            return new Extreme(Figure.absent(Absence.TOO_FEW_FOR_MEAN), 0);
        }
        Stretch means = curve.cleaned(noise).smoothed(half);
        int best = from;
        for (int i = from; i < end; i++) {
            best = sign * means.psi(i) > sign * means.psi(best) ? i : best;
        }
        double readings = readingsAt(curve, means.second(best), half);
        double sd = noise.ofMeanOnClimb(readings);
        double near = 0;
        for (int i = from; i < end; i++) {
            near += sign * (means.psi(best) - means.psi(i)) <= NEAR_SD * sd ? 1 : 0;
        }
        double windows = 1 + (near - 1) / readings;
        double chances = Math.max(1, CHANCES_PER_WINDOW * (windows - 1) + 1);
        double added = sd * expectedHighest(chances);
        double left = Math.hypot(sd * Math.pow(windows, SD_EXPONENT), DOUBT * added);
        return new Extreme(
                Figure.of(means.psi(best) - sign * added, Figure.NORMAL_95 * left),
                means.second(best));
    }

    private static double readingsAt(Stretch curve, double second, double half) {
        return Math.max(1, curve.indexAfter(second + half) - curve.indexFrom(second - half));
    }

    private static double expectedHighest(double draws) {
        double share = (draws - BLOM) / (draws + 1 - 2 * BLOM);
        return draws <= 1 ? 0 : Normal.quantile(share);
    }
}
