package leat.measure;

/** A drawn climb measured by every piece, for tests. */
record MeasuredClimb(
        AnalyticClimb truth, Stretch curve, Noise noise, StateLevels levels, Crossings crossings) {

    static MeasuredClimb of(AnalyticClimb climb) {
        Stretch curve = climb.stretch();
        Noise noise = Noise.of(curve).orElseThrow();
        StateLevels levels = StateLevels.of(curve, noise);
        Crossings crossings = Crossings.of(curve, 0, levels.base(), levels.loaded(), noise);
        return new MeasuredClimb(climb, curve, noise, levels, crossings);
    }

    Aberrations aberrations() {
        return Aberrations.of(
                curve,
                crossings,
                levels.base(),
                levels.loaded(),
                noise,
                levels.strokesFromSecond());
    }

    Measured settling(double requiredSeconds) {
        return Settling.of(
                curve,
                crossings,
                levels.base(),
                levels.loaded(),
                noise,
                levels.strokesFromSecond(),
                requiredSeconds);
    }

    Measured after10(double psi) {
        return FixedThreshold.after10(curve, 0, crossings, levels.base(), psi, noise);
    }

    /** The last 6 s. */
    Stretch steady() {
        double end = curve.second(curve.size() - 1);
        return curve.part(end - 6, end);
    }
}
