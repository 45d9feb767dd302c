package leat.measure;

import java.util.Arrays;
import leat.measure.absence.Absence;

/**
 * The state levels of a climb, a term of IEEE Std 181. Immutable.
 *
 * <p>The low state is the standard's, the most frequent pressure. The standard's high state, the
 * most frequent pressure of the upper half, is not used: a pump has two of them, {@code unloaded}
 * before the strokes and {@code loaded} under them, and where no strokes are to be seen the most
 * frequent pressure may still be one that was left before the end.
 *
 * @param base before the climb
 * @param unloaded mean of the half second before the strokes; absent when none are seen, and when
 *     they began while the pressure still climbed
 * @param loaded mean under the strokes, over the last whole ones; absent when none are seen, and
 *     when they had just begun
 * @param last {@code loaded}; where there is none, mean of the last seconds before the strokes, or
 *     of the record where none are seen
 * @param dropPsi {@code unloaded} less {@code loaded}
 * @param strokesFromSecond when the strokes began; the end of the record when none are seen
 * @param lastFromSecond the seconds of which {@code last} is, and the inlet beside it
 * @param lastToSecond their end
 * @param ripple the strokes of the last seconds
 */
record StateLevels(
        Figure base,
        Figure unloaded,
        Figure loaded,
        Figure last,
        Figure dropPsi,
        double strokesFromSecond,
        double lastFromSecond,
        double lastToSecond,
        Ripple ripple) {

    private static final int BINS = 100;

    /** A bin is no narrower than so many standard deviations of the noise. */
    private static final double BIN_NOISES = 3;

    /** With fewer readings or seconds in a state than this a histogram says little. */
    private static final int LEAST_READINGS = 10;

    private static final double LEAST_SECONDS = 0.5;

    /** Strokes are sought in so many seconds, and then in more, for slow ones. */
    private static final double[] RIPPLE_SECONDS = {6, 12};

    /** The shares of the range between which the climb is looked at. */
    private static final double RISEN = 0.9;

    /** From this share of the range on the end of the climb and the strokes are sought. */
    private static final double MOSTLY_RISEN = 0.75;

    /** A second-order rise leaves its base so many time constants before its 10 % instant. */
    private static final double LEAVES_BASE = 0.5;

    /** The pressure has come down under the strokes by then. */
    private static final double TAKEN_UP_SECONDS = 1;

    /** A level without strokes is the mean of so many, for it may still creep. */
    private static final double QUIET_SECONDS = 3;

    /** A level under strokes is the mean of at least so many, or of as many seconds. */
    private static final int LEAST_STROKES = 2;

    /** A pressure that swings by this share of the range shows its strokes, if it is they. */
    private static final double SWING_SHARE = 0.015;

    /** A pressure of which whole strokes differ by this share of the range wanders by itself. */
    private static final double SLOW_SWING_SHARE = 0.02;

    /** Whole strokes of a sound machine differ by no more than this share of the range. */
    private static final double UNREST_SHARE = 0.01;

    /** Slow unrest of a quiet supply, psi. */
    private static final double UNREST_PSI = 0.1;

    /**
     * Finds the levels.
     *
     * @param curve from before the climb to a time at the level
     * @param noise of its readings
     */
    static StateLevels of(Stretch curve, Noise noise) {
        if (curve.size() < 2) {
            Figure none = Figure.absent(Absence.NO_READINGS);
            return new StateLevels(none, none, none, none, none, 0, 0, 0, Ripple.of(curve, noise));
        }
        return new Search(curve, noise).levels();
    }

    /** One search over one curve. */
    private static final class Search {
        private final Stretch curve;
        private final Stretch clean;
        private final Noise noise;
        private final double lowest;
        private final double range;
        private final double end;
        private final double leftSecond;
        private final double risenSecond;

        /** Time constant of a first-order rise of the same duration. */
        private final double paceSeconds;

        private final StrokeOnset onset;
        private final Ripple ripple;
        private final double strokesFrom;

        Search(Stretch curve, Noise noise) {
            this.curve = curve;
            clean = curve.cleaned(noise.farthestPsi());
            this.noise = noise;
            lowest = curve.psi(curve.lowest(Double.POSITIVE_INFINITY));
            range = curve.highest(0) - lowest;
            end = curve.second(curve.size() - 1);
            int climbed = Math.max(0, curve.firstAtOrAbove(lowest + range / 2, 0));
            int mostly = Math.max(0, curve.firstAtOrAbove(lowest + MOSTLY_RISEN * range, climbed));
            int risen = Math.max(0, curve.firstAtOrAbove(lowest + RISEN * range, climbed));
            risenSecond = curve.second(risen);
            int left = Math.max(0, curve.lastBelow(lowest + (1 - RISEN) * range, climbed));
            leftSecond = curve.second(left);
            paceSeconds = (risenSecond - leftSecond) / Math.log(RISEN / (1 - RISEN));
            double sd = Math.hypot(Math.max(quietSd(), noise.stepPsi() / 2), UNREST_PSI);
            StrokeOnset found = StrokeOnset.of(clean.part(curve.second(mostly), end), sd, range);
            Stretch upper = clean.part(curve.second(climbed), found.second());
            onset = Hesitation.isIn(upper, sd, range) ? found.inClimb() : found;
            ripple = ripple();
            strokesFrom = isStroking() ? Math.min(onset.second(), end) : end;
        }

        /** Strokes that are sampled slowly look like noise: that of the time before the climb. */
        private double quietSd() {
            return Noise.of(curve.part(curve.second(0), leftSecond - LEAVES_BASE * paceSeconds))
                    .map(before -> Math.min(before.sdPsi(), noise.sdPsi()))
                    .orElse(noise.sdPsi());
        }

        private Ripple ripple() {
            double from =
                    onset.seen() == StrokeOnset.Seen.AFTER_A_QUIET_TIME
                            ? onset.second()
                            : risenSecond;
            Ripple found =
                    Ripple.of(curve.part(Math.max(from, end - RIPPLE_SECONDS[0]), end), noise);
            return found.isPresent()
                    ? found
                    : Ripple.of(curve.part(Math.max(from, end - RIPPLE_SECONDS[1]), end), noise);
        }

        /**
         * A coupling that slips: what pulled the pressure down first may not have been a stroke.
         */
        private boolean swingsUnlikeStrokes() {
            Stretch late = clean.part(onset.second(), end);
            return onset.seen() == StrokeOnset.Seen.AFTER_A_QUIET_TIME
                    && late.spanSeconds() > RIPPLE_SECONDS[0]
                    && (ripple.isPresent()
                            ? slowSwing(late) > SLOW_SWING_SHARE * range
                            : swing(late) > SWING_SHARE * range);
        }

        /** How the means of whole strokes differ from one to the next. */
        private double slowSwing(Stretch part) {
            double stroke = Math.max(1, strokeSeconds());
            Moments means = new Moments();
            for (double until = end; until - stroke >= part.second(0); until -= stroke) {
                Stretch one = part.part(until - stroke, until);
                if (one.size() > 0) {
                    means.add(one.mean(0, one.size()));
                }
            }
            return means.sd();
        }

        private static double swing(Stretch part) {
            Moments moments = new Moments();
            for (int i = 0; i < part.size(); i++) {
                moments.add(part.psi(i));
            }
            return moments.sd();
        }

        private boolean isStroking() {
            return onset.seen() != StrokeOnset.Seen.NONE || ripple.isPresent();
        }

        StateLevels levels() {
            LastLevel last = last();
            Figure unloaded = unloaded();
            Figure loaded = loaded(last);
            return new StateLevels(
                    base(),
                    unloaded,
                    loaded,
                    last.psi(),
                    unloaded.less(loaded),
                    strokesFrom,
                    last.fromSecond(),
                    last.toSecond(),
                    ripple);
        }

        Figure base() {
            double until = leftSecond - LEAVES_BASE * paceSeconds;
            return level(curve.part(curve.second(0), until));
        }

        private Figure unloaded() {
            if (swingsUnlikeStrokes()) {
                return Figure.absent(Absence.SWINGS_UNLIKE_STROKES);
            }
            return onset.seen() == StrokeOnset.Seen.NONE && ripple.isPresent()
                    ? Figure.absent(Absence.STROKES_IN_CLIMB)
                    : wandering(onset.before());
        }

        /** A level that wanders later wandered before the strokes too, as far as anybody knows. */
        private Figure wandering(Figure before) {
            if (!before.isPresent()) {
                return before;
            }
            double usual = UNREST_SHARE * range;
            double slow = slowSwing(clean.part(strokesFrom, end));
            double more = Math.sqrt(Math.max(0, slow * slow - usual * usual));
            return Figure.of(before.get(), Math.hypot(before.doubt(), Figure.NORMAL_95 * more));
        }

        /**
         * Under the strokes; before them where they have just begun; else after the climb, whatever
         * it shows.
         */
        private LastLevel last() {
            if (isUnderStrokes()) {
                return LastLevel.of(clean.part(loadedFrom(), end), noise, strokeSeconds());
            }
            if (unloaded().isPresent()) {
                double half = StrokeOnset.levelSeconds(noise.intervalSeconds());
                Stretch before = clean.part(strokesFrom - half, strokesFrom);
                if (before.size() > 0) {
                    return LastLevel.of(before, noise, 0);
                }
            }
            double from = Math.max(risenSecond, end - QUIET_SECONDS);
            return LastLevel.of(clean.part(Math.min(from, end - TAKEN_UP_SECONDS), end), noise, 0);
        }

        private double strokeSeconds() {
            return ripple.isPresent() ? 1 / ripple.frequencyHz().get() : 0;
        }

        private boolean isUnderStrokes() {
            double least = LEAST_STROKES * Math.max(TAKEN_UP_SECONDS, strokeSeconds());
            return isStroking() && end - loadedFrom() >= least;
        }

        private double loadedFrom() {
            return onset.seen() == StrokeOnset.Seen.AFTER_A_QUIET_TIME
                    ? strokesFrom + TAKEN_UP_SECONDS
                    : risenSecond;
        }

        private Figure loaded(LastLevel last) {
            if (!isStroking()) {
                return Figure.absent(Absence.NO_STROKES_SEEN);
            }
            return isUnderStrokes() ? last.psi() : Figure.absent(Absence.STROKES_JUST_BEGUN);
        }

        /** The level of the readings at the most frequent pressure. */
        private Figure level(Stretch state) {
            if (state.size() == 0) {
                return Figure.absent(Absence.NO_READING_IN_STATE);
            }
            int[] near = atMode(state);
            double[] psi = new double[near.length];
            for (int i = 0; i < psi.length; i++) {
                psi[i] = state.psi(near[psi.length - 1 - i]);
            }
            double seconds = psi.length * noise.intervalSeconds();
            return psi.length < LEAST_READINGS || seconds < LEAST_SECONDS
                    ? Level.ofShort(psi, noise)
                    : Level.settled(psi, noise, range);
        }

        /** Indices of the readings in the fullest bin and the bin to either side. */
        private int[] atMode(Stretch state) {
            double binPsi = binPsi();
            int[] bins = new int[state.size()];
            int[] counts = new int[(int) Math.ceil(range / binPsi) + 1];
            for (int i = 0; i < bins.length; i++) {
                bins[i] = (int) ((state.psi(i) - lowest) / binPsi);
                counts[bins[i]]++;
            }
            int mode = 0;
            for (int i = 1; i < counts.length; i++) {
                mode = counts[i] > counts[mode] ? i : mode;
            }
            int[] near = new int[bins.length];
            int n = 0;
            for (int i = 0; i < bins.length; i++) {
                if (Math.abs(bins[i] - mode) <= 1) {
                    near[n++] = i;
                }
            }
            return Arrays.copyOf(near, n);
        }

        private double binPsi() {
            double least = Math.max(BIN_NOISES * noise.sdPsi(), noise.stepPsi());
            return Math.max(Math.max(range / BINS, 1e-6), least);
        }
    }
}
