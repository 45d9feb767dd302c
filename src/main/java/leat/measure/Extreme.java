package leat.measure;

/**
 * The highest point of a noisy curve, averaged over a short window. The highest of many noisy means
 * lies above the true curve; what noise is expected to add is taken off, by how long the curve
 * stays near its highest point. Immutable.
 *
 * @param highest psi, with the mean over the window
 * @param second when
 */
record Extreme(Measured highest, double second) {

    /** Means this many standard deviations below the highest still had a chance to be it. */
    private static final double NEAR_SD = 2.5;

    /** Fit to simulated moving means of white noise, by the length of the plateau in windows. */
    private static final double CHANCES_PER_WINDOW = 2.5;

    private static final double BEND_SDS = 3;

    /** The correction of a sharp crest is trusted to one part in so many, a standard deviation. */
    private static final double CREST_PARTS = 8;

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

    private static Extreme of(Stretch curve, Noise noise, double windowSeconds, int sign) {
        double half = windowSeconds / 2;
        double slack = noise.intervalSeconds() / 4;
        int from = curve.size() == 0 ? 0 : curve.indexFrom(curve.second(0) + half - slack);
        int end =
                curve.size() == 0
                        ? 0
                        : curve.indexAfter(curve.second(curve.size() - 1) - half + slack);
        if (from >= end) {
            return new Extreme(Measured.absent("too few readings for a mean"), 0);
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
        double crest = crest(means, best, (int) Math.rint(readings), sd);
        double windows = 1 + (near - 1) / readings;
        double chances = Math.max(1, CHANCES_PER_WINDOW * (windows - 1) + 1);
        double added = sd * expectedHighest(chances);
        double left = sd * Math.pow(windows, SD_EXPONENT);
        return new Extreme(
                Measured.of(
                        means.psi(best) - sign * added + crest,
                        Measured.NORMAL_95 * Math.hypot(left, crest / CREST_PARTS)),
                means.second(best));
    }

    /**
     * What the mean over the window and the instants of sampling take off a sharp crest, by the
     * parabola through it; 0 where the bend is no clearer than noise.
     */
    private static double crest(Stretch means, int best, int readings, double sd) {
        if (best < readings || best + readings >= means.size()) {
            return 0;
        }
        double across =
                means.psi(best - readings) - 2 * means.psi(best) + means.psi(best + readings);
        if (Math.abs(across) < BEND_SDS * Math.sqrt(6) * sd) {
            return 0;
        }
        double bend = -across / readings / readings;
        double slope = (means.psi(best + 1) - means.psi(best - 1)) / 2;
        double between = Math.min(slope * slope / 2 / Math.abs(bend), Math.abs(bend) / 8);
        return bend * (readings * readings - 1) / 24 + Math.signum(bend) * between;
    }

    private static double readingsAt(Stretch curve, double second, double half) {
        return Math.max(1, curve.indexAfter(second + half) - curve.indexFrom(second - half));
    }

    private static double expectedHighest(double draws) {
        double share = (draws - BLOM) / (draws + 1 - 2 * BLOM);
        return draws <= 1 ? 0 : Normal.quantile(share);
    }
}
