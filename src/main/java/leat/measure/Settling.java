package leat.measure;

import java.util.Optional;

/**
 * How long a climb takes to stay at its level, by IEEE Std 181: from the 50 % instant, not from the
 * start, until the pressure stays within 2 % of the amplitude of the top.
 */
final class Settling {

    private static final double BAND = 0.02;

    /** The averaged curve must be quieter than the band by this many standard deviations. */
    private static final double BAND_SDS = 4;

    private static final double MOST_HALF = 0.2;

    /** The slope at the entry is looked at over this share of the duration to a side as well. */
    private static final double SLOPE_SHARE = 0.2;

    private static final int ROUNDS = 3;

    private Settling() {}

    /**
     * Seconds from the 50 % instant to the last entry into the band, of the curve averaged against
     * noise. Absent where noise is wider than the band, where the pressure does not stay in it for
     * {@code requiredSeconds} before {@code untilSecond}, and where a swing ends so near the edge
     * of the band that noise decides whether it counts.
     *
     * @param untilSecond where strokes begin, which would leave the band, or the record ends
     * @param requiredSeconds to stay in the band
     */
    static Figure of(
            Stretch curve,
            Crossings climb,
            Figure base,
            Figure top,
            Noise noise,
            double untilSecond,
            double requiredSeconds) {
        if (!climb.durationSeconds().isPresent()) {
            return Figure.absent(climb.durationSeconds().absentBecause());
        }
        if (!climb.t50().isPresent()) {
            return climb.t50();
        }
        Band band = new Band(curve, climb, base, top, noise, untilSecond);
        Optional<Absence> lacks = band.lacks();
        if (lacks.isPresent()) {
            return Figure.absent(lacks.get());
        }
        return band.entry(climb, requiredSeconds);
    }

    /** The 2 % band about the top and the curve's way into it. */
    private static final class Band {
        private final Stretch rough;
        private final Stretch curve;
        private final Noise noise;
        private final Figure top;
        private final double psi;
        private final double half;
        private final double duration;
        private final double end;
        private final int last;
        private final double sd;

        Band(
                Stretch readings,
                Crossings climb,
                Figure base,
                Figure top,
                Noise noise,
                double untilSecond) {
            this.noise = noise;
            this.top = top;
            Stretch whole = readings.cleaned(noise);
            duration = climb.durationSeconds().get();
            half = climb.halfSeconds();
            psi = BAND * (top.get() - base.get());
            curve = whole.part(climb.t50().get(), untilSecond);
            rough = half > 0 ? whole.smoothed(half).part(climb.t50().get(), untilSecond) : curve;
            end = curve.size() == 0 ? climb.t50().get() : curve.second(curve.size() - 1);
            sd = noise.ofMeanOnClimb(noise.readingsIn(2 * half));
            last = lastOutside();
        }

        private int lastOutside() {
            for (int i = rough.size() - 1; i >= 0; i--) {
                if (Math.abs(rough.psi(i) - top.get()) > psi) {
                    return i;
                }
            }
            return -1;
        }

        Optional<Absence> lacks() {
            if (BAND_SDS * sd > psi) {
                return Optional.of(Absence.NOISE_WIDER_THAN_BAND);
            }
            if (last < 0 || last + 1 >= rough.size()) {
                return Optional.of(Absence.DID_NOT_SETTLE);
            }
            return swingNearEdge() ? Optional.of(Absence.SWING_AT_EDGE) : Optional.empty();
        }

        /** Whether the crest of the last swing outside, or of a later one, is within the doubt. */
        private boolean swingNearEdge() {
            double doubt = Math.hypot(Figure.NORMAL_95 * sd, top.doubt());
            double side = Math.signum(rough.psi(last) - top.get());
            double crest = 0;
            for (int i = last; i >= 0 && side * (rough.psi(i) - top.get()) > 0; i--) {
                crest = Math.max(crest, Math.abs(rough.psi(i) - top.get()));
            }
            boolean left = false;
            for (int i = last + 1; i < rough.size(); i++) {
                double off = side * (rough.psi(i) - top.get());
                left |= off < psi - 2 * doubt;
                if (left && Math.abs(off) > psi - doubt) {
                    return true;
                }
            }
            return crest < psi + doubt;
        }

        Figure entry(Crossings climb, double requiredSeconds) {
            double edge = top.get() + psi * Math.signum(rough.psi(last) - top.get());
            double at = rough.crossing(last, edge);
            double window = Math.max(half, noise.intervalSeconds());
            Line line = Line.through(curve, at - window, at + window);
            for (int i = 0; i < ROUNDS; i++) {
                double best = bestHalf(line.slope());
                Line next = Line.through(curve, at - best, at + best);
                double moved = at + (edge - next.at(at)) / next.slope();
                if (next.count() < 3 || !(Math.abs(moved - at) < best)) {
                    break;
                }
                at = moved;
                line = next;
                window = best;
            }
            if (end - at < requiredSeconds) {
                return Figure.absent(Absence.LEVEL_TOO_SHORT);
            }
            double doubt =
                    Figure.NORMAL_95 * Math.hypot(noise.ofMeanOnClimb(line.count()), top.sd());
            if (doubt >= psi) {
                return Figure.absent(Absence.LEVEL_UNSURE);
            }
            double sampling = noise.intervalSeconds() * noise.intervalSeconds() / duration;
            double bent = Figure.NORMAL_95 * Math.log(9) / 6 * window * window / duration;
            double own = Math.hypot(later(doubt, slope(line, at)), Math.hypot(sampling, bent));
            return Figure.bounded(
                    at - climb.t50().get(),
                    Math.hypot(own, climb.t50().doubt()),
                    Absence.STANDS_STILL);
        }

        /**
         * How much later the pressure enters where the edge lies by a doubt nearer to the level.
         * The nearer, the more slowly the pressure creeps: it comes in as an exponential does, of
         * which the band is still to come at the edge and the slope there is {@code slope}.
         *
         * @param doubtPsi of the edge, by noise and by the top's own doubt; less than the band
         */
        private double later(double doubtPsi, double slope) {
            return -Math.log1p(-doubtPsi / psi) * psi / slope;
        }

        /**
         * Psi per second at the entry. The last of several entries is one that noise has made, and
         * such a one is steep: the slope over a wider time counts where it is less.
         */
        private double slope(Line line, double at) {
            double wide = SLOPE_SHARE * duration;
            double along = Math.signum(line.slope());
            double slope = along * Line.through(curve, at - wide, at + wide).slope();
            return slope > 0 ? Math.min(slope, Math.abs(line.slope())) : Math.abs(line.slope());
        }

        private double bestHalf(double slope) {
            double variance = noise.sdPsi() * noise.sdPsi() * noise.intervalSeconds();
            double curvature = Math.log(9) / 6 / duration;
            double best =
                    Math.pow(variance / (2 * slope * slope) / (4 * curvature * curvature), 0.2);
            return Math.max(noise.intervalSeconds(), Math.min(best, MOST_HALF * duration));
        }
    }

    /** A straight line by least squares. */
    private record Line(double middle, double psi, double slope, int count) {

        static Line through(Stretch curve, double fromSecond, double toSecond) {
            int from = curve.indexFrom(fromSecond);
            int end = Math.max(from + 1, curve.indexAfter(toSecond));
            if (end > curve.size()) {
                from = Math.max(0, curve.size() - 2);
                end = curve.size();
            }
            double middle = 0;
            for (int i = from; i < end; i++) {
                middle += curve.second(i) / (end - from);
            }
            double products = 0;
            double squares = 0;
            for (int i = from; i < end; i++) {
                double off = curve.second(i) - middle;
                products += off * curve.psi(i);
                squares += off * off;
            }
            double slope = squares == 0 ? 0 : products / squares;
            return new Line(middle, curve.mean(from, end), slope, end - from);
        }

        double at(double second) {
            return psi + slope * (second - middle);
        }
    }
}
