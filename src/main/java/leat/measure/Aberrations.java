package leat.measure;

/**
 * How far a climb strays beyond its levels, by IEEE Std 181, in percent of the amplitude.
 * Immutable.
 *
 * @param overshootPercent highest point above the top after the climb
 * @param undershootPercent lowest point below the top after that
 * @param preshootPercent lowest point below the base before the climb
 */
record Aberrations(
        Measured overshootPercent, Measured undershootPercent, Measured preshootPercent) {

    /** The region after the climb in which an aberration counts, in transition durations. */
    private static final double REGION_DURATIONS = 5;

    private static final double LEAST_WINDOW_SHARE = 0.04;

    /**
     * Looks between the 90 % instant and {@code untilSecond}, which is where strokes begin or the
     * record ends, and not further than five durations. Points are means over the same short window
     * as those of the crossings; what noise adds to the highest of many is taken off, see {@link
     * Extreme}.
     */
    static Aberrations of(
            Stretch curve,
            Crossings climb,
            Measured base,
            Measured top,
            Noise noise,
            double untilSecond) {
        if (!climb.durationSeconds().isPresent()) {
            Measured none = Measured.absent(climb.durationSeconds().absentBecause());
            return new Aberrations(none, none, none);
        }
        double duration = climb.durationSeconds().get();
        double amplitude = top.get() - base.get();
        double window = 2 * Math.max(climb.halfSeconds(), LEAST_WINDOW_SHARE * duration);
        double from = climb.t90().get();
        double end = Math.min(untilSecond, from + REGION_DURATIONS * duration);
        Stretch after = curve.part(from, end);
        Extreme peak = Extreme.highest(after, noise, window);
        Measured trough = trough(curve, peak, top, noise, window, end);
        Stretch before = curve.part(curve.second(0), climb.t10().get());
        Extreme pre = Extreme.lowest(before, noise, window);
        return new Aberrations(
                percent(peak.highest(), top, amplitude, 1),
                trough.isPresent() ? percent(trough, top, amplitude, -1) : trough,
                percent(pre.highest(), base, amplitude, -1));
    }

    private static Measured trough(
            Stretch curve, Extreme peak, Measured top, Noise noise, double window, double end) {
        if (!peak.highest().isPresent()) {
            return peak.highest();
        }
        boolean over = peak.highest().get() - peak.highest().uncertainty95() > top.get();
        return over
                ? Extreme.lowest(curve.part(peak.second(), end), noise, window).highest()
                : Measured.absent("the climb did not go above its top");
    }

    private static Measured percent(
            Measured point, Measured level, double amplitude, int direction) {
        if (!point.isPresent()) {
            return point;
        }
        double beyond = direction * (point.get() - level.get());
        return Measured.of(
                Math.max(0, beyond) / amplitude * 100,
                Math.hypot(point.uncertainty95(), level.uncertainty95()) / amplitude * 100);
    }
}
