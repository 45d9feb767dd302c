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
    static Figure after10(
            Stretch curve, int from, Crossings climb, Figure base, double psi, Noise noise) {
        if (!climb.t10().isPresent()) {
            return Figure.absent(climb.t10().absentBecause());
        }
        if (base.get() >= psi) {
            return Figure.absent(Absence.BEGAN_ABOVE);
        }
        Figure instant = instant(curve, from, climb, Figure.of(psi, 0), noise);
        return instant.isPresent()
                ? Figure.of(
                        instant.get() - climb.t10().get(),
                        Math.hypot(instant.doubt(), climb.t10().doubt()))
                : instant;
    }

    /**
     * The second at which the climb passes a pressure.
     *
     * @param from index from which to look
     * @param pressure whose own doubt is part of the instant's, by the slope there
     */
    static Figure instant(Stretch curve, int from, Crossings climb, Figure pressure, Noise noise) {
        double psi = pressure.get();
        int index = curve.firstAtOrAbove(psi, Math.max(1, from));
        if (index < 1) {
            return Figure.absent(Absence.NOT_REACHED);
        }
        if (!climb.durationSeconds().isPresent()) {
            return Figure.absent(climb.durationSeconds().absentBecause());
        }
        double duration = climb.durationSeconds().get();
        Crossing rough = Crossing.at(curve, index, psi, noise, 0, 0);
        Crossing crossing = Crossing.refined(curve, rough, psi, noise, duration);
        InterpolationError error = InterpolationError.of(duration / noise.intervalSeconds());
        double byPressure = pressure.sd() / crossing.slope();
        double sd =
                Math.hypot(
                        byPressure,
                        Math.hypot(crossing.noiseSeconds(), crossing.averagedSeconds()));
        return Figure.bounded(
                crossing.second(),
                Math.hypot(Figure.NORMAL_95 * sd, error.at50() * duration),
                Absence.STANDS_STILL);
    }
}
