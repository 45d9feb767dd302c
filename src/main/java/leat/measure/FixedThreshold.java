package leat.measure;

/** How long a climb takes from its 10 % instant to a pressure that is the same for every start. */
final class FixedThreshold {

    /** Common practice of comparing starts at one pressure; no source. */
    static final double DEFAULT_PSI = 75;

    private FixedThreshold() {}

    /**
     * Seconds from the 10 % instant to {@code psi}; absent when the climb begins above it or does
     * not reach it.
     *
     * @param from index from which to look
     */
    static Measured after10(
            Stretch curve, int from, Crossings climb, Measured base, double psi, Noise noise) {
        if (!climb.t10().isPresent()) {
            return Measured.absent(climb.t10().absentBecause());
        }
        double half = climb.halfSeconds();
        Stretch smooth = half > 0 ? curve.smoothed(half) : curve;
        int start = Math.max(from, smooth.indexAfter(climb.t10().get()));
        int index = smooth.firstAtOrAbove(psi, start);
        if (base.get() >= psi || index == start && index > 0 && smooth.psi(index - 1) >= psi) {
            return Measured.absent("the climb began above the pressure");
        }
        if (index < 1) {
            return Measured.absent("the pressure was not reached");
        }
        Crossing crossing = Crossing.at(smooth, index, psi, noise, half);
        double seconds = crossing.second() - climb.t10().get();
        double intervals = climb.durationSeconds().isPresent()
                ? climb.durationSeconds().get() / noise.intervalSeconds()
                : 1;
        double sampling = InterpolationError.of(intervals).at90() * intervals * noise.intervalSeconds();
        return Measured.of(
                seconds,
                Math.hypot(
                        Math.hypot(Measured.NORMAL_95 * crossing.noiseSeconds(), sampling),
                        climb.t10().uncertainty95()));
    }
}
