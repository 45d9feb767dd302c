package leat.measure;

import java.util.Optional;

/**
 * The reference-level instants of a climb by IEEE Std 181, 10, 50 and 90 % of the amplitude, by
 * straight lines between samples, and the transition duration from 10 to 90 %. Immutable.
 *
 * @param t10 seconds from the zero of the stretch
 * @param t50 likewise
 * @param t90 likewise
 * @param durationSeconds from {@code t10} to {@code t90}
 * @param fitInstead true where so few samples lie inside the climb that a fitted model tells its
 *     duration better than straight lines
 * @param halfSeconds to either side over which points after the climb are averaged against noise
 */
record Crossings(
        Figure t10,
        Figure t50,
        Figure t90,
        Figure durationSeconds,
        boolean fitInstead,
        double halfSeconds) {

    /** A smaller change is no climb. */
    static final double LEAST_AMPLITUDE_PSI = 10;

    private static final double LONGEST_GAP_SECONDS = 0.5;
    private static final double GAP_INTERVALS = 4;

    /** Below this many intervals inside the climb there is no duration at all. */
    private static final double LEAST_INTERVALS = 3;

    /** Straight lines are good enough while they err by less than this share of the duration. */
    private static final double MOST_ERROR_SHARE = 0.05;

    private static final double HALF_SHARE = 0.08;

    /**
     * Measures the climb from {@code base} to {@code top}.
     *
     * @param from index from which to look
     */
    static Crossings of(Stretch curve, int from, Figure base, Figure top, Noise noise) {
        if (!base.isPresent() || !top.isPresent()) {
            return absent(base.isPresent() ? top.absentBecause() : base.absentBecause());
        }
        double amplitude = top.get() - base.get();
        if (!(amplitude >= LEAST_AMPLITUDE_PSI)) {
            return absent(Absence.CHANGED_TOO_LITTLE);
        }
        Climbing rough = new Climbing(curve, from, base, top, noise);
        if (rough.lacks.isPresent()) {
            return absent(rough.lacks.get());
        }
        return rough.refined();
    }

    private static Crossings absent(Absence because) {
        Figure none = Figure.absent(because);
        return new Crossings(none, none, none, none, false, 0);
    }

    /** One climb with its three crossings. */
    private static final class Climbing {
        private final Stretch curve;
        private final Figure base;
        private final Figure top;
        private final Noise noise;
        private final Optional<Absence> lacks;
        private Crossing at10 = new Crossing(0, 0, 0, 0, 0);
        private Crossing at50 = at10;
        private Crossing at90 = at10;

        Climbing(Stretch curve, int from, Figure base, Figure top, Noise noise) {
            this.curve = curve;
            this.base = base;
            this.top = top;
            this.noise = noise;
            int above90 = curve.firstAtOrAbove(psi(0.9), from);
            int below10 = curve.lastBelow(psi(0.1), above90);
            if (above90 < 1 || below10 < 0) {
                lacks = Optional.of(Absence.NOT_WHOLLY_ON_RECORD);
                return;
            }
            int below50 = curve.lastBelow(psi(0.5), above90);
            at10 = Crossing.at(curve, below10 + 1, psi(0.1), noise, 0, 0);
            at50 = Crossing.at(curve, below50 + 1, psi(0.5), noise, 0, 0);
            at90 = Crossing.at(curve, above90, psi(0.9), noise, 0, 0);
            double gap = curve.longestGap(below10, above90);
            double most = Math.max(LONGEST_GAP_SECONDS, GAP_INTERVALS * noise.intervalSeconds());
            lacks = gap > most ? Optional.of(Absence.GAP_IN_RISE) : Optional.empty();
        }

        private double seconds() {
            return at90.second() - at10.second();
        }

        private double psi(double share) {
            return base.get() + share * (top.get() - base.get());
        }

        Crossings refined() {
            double rough = seconds();
            at10 = Crossing.refined(curve, at10, psi(0.1), noise, rough);
            at50 = Crossing.refined(curve, at50, psi(0.5), noise, rough);
            at90 = Crossing.refined(curve, at90, psi(0.9), noise, rough);
            double intervals = seconds() / noise.intervalSeconds();
            InterpolationError error = InterpolationError.of(Math.max(0.5, intervals));
            return new Crossings(
                    instant(at10, 0.1, error.at10()),
                    instant(at50, 0.5, error.at50()),
                    instant(at90, 0.9, error.at90()),
                    duration(intervals, error.ofDuration()),
                    error.ofDuration() > MOST_ERROR_SHARE,
                    HALF_SHARE * seconds());
        }

        private Figure instant(Crossing crossing, double share, double errorShare) {
            double byBase = (1 - share) * base.sd() / crossing.slope();
            double byTop = share * top.sd() / crossing.slope();
            double sd =
                    Math.hypot(
                            Math.hypot(crossing.noiseSeconds(), crossing.averagedSeconds()),
                            Math.hypot(byBase, byTop));
            return Figure.bounded(
                    crossing.second(),
                    Math.hypot(Figure.NORMAL_95 * sd, errorShare * seconds()),
                    Absence.STANDS_STILL);
        }

        /** One error of a level moves both ends; the noise at them is independent. */
        private Figure duration(double intervals, double errorShare) {
            if (intervals < LEAST_INTERVALS) {
                return Figure.absent(Absence.TOO_SLOW_FOR_RISE);
            }
            double byBase = (0.1 / at90.slope() - 0.9 / at10.slope()) * base.sd();
            double byTop = (0.9 / at90.slope() - 0.1 / at10.slope()) * top.sd();
            double byNoise = Math.hypot(at10.noiseSeconds(), at90.noiseSeconds());
            double byAverage = Math.hypot(at10.averagedSeconds(), at90.averagedSeconds());
            double sd = Math.hypot(Math.hypot(byNoise, byAverage), Math.hypot(byBase, byTop));
            return Figure.bounded(
                    seconds(),
                    Math.hypot(Figure.NORMAL_95 * sd, errorShare * seconds()),
                    Absence.STANDS_STILL);
        }
    }
}
