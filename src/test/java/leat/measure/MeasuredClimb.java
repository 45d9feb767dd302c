package leat.measure;

/** A drawn climb measured by every piece, for tests. */
record MeasuredClimb(
        AnalyticClimb truth, Stretch curve, Noise noise, StateLevels levels, Crossings crossings) {

    private static final double INLET_SHARE = 0.4;

    static MeasuredClimb of(AnalyticClimb climb) {
        Stretch curve = climb.stretch();
        Noise noise = Noise.of(curve).orElseThrow();
        StateLevels levels = StateLevels.of(curve, noise);
        Crossings crossings = Crossings.of(curve, 0, levels.base(), levels.last(), noise);
        return new MeasuredClimb(climb, curve, noise, levels, crossings);
    }

    Aberrations aberrations() {
        return Aberrations.of(
                curve, crossings, levels.base(), levels.last(), noise, levels.strokesFromSecond());
    }

    Figure settling(double requiredSeconds) {
        return Settling.of(
                curve,
                crossings,
                levels.base(),
                levels.last(),
                noise,
                levels.strokesFromSecond(),
                requiredSeconds);
    }

    /** The boost from an inlet pressure of 40 % of the amplitude. */
    Figure boostRate() {
        double inlet = truth.base() + INLET_SHARE * truth.amplitude();
        Crossings boost = Crossings.of(curve, 0, Figure.of(inlet, 0), levels.last(), noise);
        return Ramp.psiPerSecond(curve, boost, noise);
    }

    /** What the rate of the boost truly is. */
    static double rate(AnalyticClimb climb) {
        double left = 1 - INLET_SHARE;
        return climb.slope(
                climb.instant(INLET_SHARE + 0.1 * left), climb.instant(INLET_SHARE + 0.9 * left));
    }

    Figure after10(double psi) {
        return FixedThreshold.after10(curve, 0, crossings, levels.base(), psi, noise);
    }

    /** The last 6 s. */
    Stretch steady() {
        double end = curve.second(curve.size() - 1);
        return curve.part(end - 6, end);
    }
}
