package leat.measure;

/**
 * How far a climb strays beyond its levels, by IEEE Std 181, in percent of the amplitude.
 * Immutable.
 *
 * @param overshootPercent highest point above the top after the climb
 * @param undershootPercent lowest point below the top after that
 */
record Aberrations(Figure overshootPercent, Figure undershootPercent) {

    /** The region after the climb in which an aberration counts, in transition durations. */
    private static final double REGION_DURATIONS = 5;

    /** To either side of a crest, in durations, a second-order rise looks like a parabola. */
    private static final double CREST_SHARE = 0.5;

    /** With fewer samples in the climb its crest lies between samples; simulated. */
    private static final double LEAST_INTERVALS = 4;

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
            Figure base,
            Figure top,
            Noise noise,
            double untilSecond) {
        if (!climb.durationSeconds().isPresent()) {
            Figure none = Figure.absent(climb.durationSeconds().absentBecause());
            return new Aberrations(none, none);
        }
        if (climb.durationSeconds().get() < LEAST_INTERVALS * noise.intervalSeconds()) {
            Figure none = Figure.absent(Absence.TOO_SLOW_FOR_CREST);
            return new Aberrations(none, none);
        }
        double duration = climb.durationSeconds().get();
        double amplitude = top.get() - base.get();
        double window = 2 * Math.max(climb.halfSeconds(), LEAST_WINDOW_SHARE * duration);
        double from = climb.t90().get();
        double end = Math.min(untilSecond, from + REGION_DURATIONS * duration);
        Stretch after = curve.part(from, end);
        Extreme peak = Extreme.crest(after, noise, window, CREST_SHARE * duration, 1);
        Stretch later = curve.part(peak.second(), end);
        Figure trough =
                isOver(peak, top)
                        ? Extreme.crest(later, noise, window, CREST_SHARE * duration, -1).highest()
                        : Figure.absent(Absence.NO_OVERSHOOT);
        return new Aberrations(
                percent(peak.highest(), top, amplitude, 1), percent(trough, top, amplitude, -1));
    }

    private static boolean isOver(Extreme peak, Figure top) {
        Figure highest = peak.highest();
        return highest.isPresent() && highest.get() - highest.doubt() > top.get();
    }

    private static Figure percent(Figure point, Figure level, double amplitude, int direction) {
        if (!point.isPresent()) {
            return point;
        }
        double beyond = direction * (point.get() - level.get());
        return Figure.of(
                Math.max(0, beyond) / amplitude * 100,
                Math.hypot(point.doubt(), level.doubt()) / amplitude * 100);
    }
}
