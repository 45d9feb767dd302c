package leat.measure;

import java.util.Arrays;
import java.util.Optional;

/**
 * The state levels of a climb, a term of IEEE Std 181. Immutable.
 *
 * <p>The low state is the standard's, the most frequent pressure. The standard's high state, the
 * most frequent pressure of the upper half, is not used: a pump has two of them, {@code unloaded}
 * before the strokes and {@code loaded} under them, and where no strokes are to be seen the most
 * frequent pressure may still be one that was left before the end.
 *
 * @param base before the climb
 * @param unloaded after the climb and before the strokes; absent when no strokes are seen
 * @param loaded median of the last 3 s, rounded to whole strokes where strokes are seen
 * @param dropPsi highest mean of 0.3 s before the strokes, within 9 s, less {@code loaded}; absent
 *     when no strokes are seen
 * @param strokesFromSecond when the strokes began; the end of the record when none are seen
 * @param ripple the strokes of the last seconds
 */
record StateLevels(
        Figure base,
        Figure unloaded,
        Figure loaded,
        Figure dropPsi,
        double strokesFromSecond,
        Ripple ripple) {

    private static final int BINS = 100;

    /** A bin is no narrower than so many standard deviations of the noise. */
    private static final double BIN_NOISES = 3;

    /** With fewer readings or seconds in a state than this a histogram says little. */
    private static final int LEAST_READINGS = 10;

    private static final double LEAST_SECONDS = 0.5;
    private static final double LOADED_SECONDS = 3;
    private static final double RIPPLE_SECONDS = 6;
    private static final double DROP_MEAN_SECONDS = 0.3;
    private static final double DROP_WITHIN_SECONDS = 9;

    /** By how much of the range a level must stand above the crests of the strokes; no source. */
    private static final double CREST_SHARE = 0.01;

    /** Where the climb counts as over for the search for strokes, as a share of the range. */
    private static final double RISEN = 0.9;

    /** The end of a climb is taken as so much slower than a first-order rise of its duration. */
    private static final double SLOWER = 1.2;

    /** A second-order rise leaves its base so many time constants before its 10 % instant. */
    private static final double LEAVES_BASE = 0.5;

    /** Sampled more slowly than this, strokes of about 1 Hz may hide in what looks like noise. */
    private static final double SLOW_SECONDS = 0.125;

    /**
     * Finds the levels.
     *
     * @param curve from before the climb to a time at the level
     * @param noise of its readings
     */
    static StateLevels of(Stretch curve, Noise noise) {
        if (curve.size() < 2) {
            Figure none = Figure.absent(Absence.NO_READINGS);
            return new StateLevels(none, none, none, none, 0, Ripple.of(curve, noise));
        }
        Search search = new Search(curve, noise);
        return new StateLevels(
                search.base(),
                search.unloaded(),
                search.loaded(),
                search.drop(),
                search.strokesFrom,
                search.ripple);
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

        private final Ripple ripple;
        private final double strokesFrom;

        /** The level held for a moment only before the strokes pulled it down. */
        private final Optional<Extreme> crest;

        Search(Stretch curve, Noise noise) {
            this.curve = curve;
            clean = curve.cleaned(noise);
            this.noise = noise;
            lowest = curve.psi(curve.lowest(Double.POSITIVE_INFINITY));
            range = curve.highest(0) - lowest;
            end = curve.second(curve.size() - 1);
            int climbed = Math.max(0, curve.firstAtOrAbove(lowest + range / 2, 0));
            int risen = Math.max(0, curve.firstAtOrAbove(lowest + RISEN * range, climbed));
            risenSecond = curve.second(risen);
            int left = Math.max(0, curve.lastBelow(lowest + (1 - RISEN) * range, climbed));
            leftSecond = curve.second(left);
            paceSeconds = (risenSecond - leftSecond) / Math.log(RISEN / (1 - RISEN));
            Stretch late = curve.part(Math.max(risenSecond, end - RIPPLE_SECONDS), end);
            ripple = Ripple.of(late, noise);
            double onset = StrokeOnset.of(curve.part(risenSecond, end), ripple, noise);
            crest = crest().filter(highest -> onset < highest.second() + DROP_MEAN_SECONDS / 2);
            strokesFrom =
                    crest.map(highest -> highest.second() + DROP_MEAN_SECONDS / 2).orElse(onset);
        }

        /**
         * The highest point of the seconds after the climb, where it lies above what the strokes
         * reach later: then they had not begun by then, however the pressure moved.
         */
        private Optional<Extreme> crest() {
            double from = end - LOADED_SECONDS;
            double until = Math.min(risenSecond + DROP_WITHIN_SECONDS, from);
            if (!ripple.isPresent() || until <= risenSecond) {
                return Optional.empty();
            }
            Extreme early =
                    Extreme.highest(curve.part(risenSecond, until), noise, DROP_MEAN_SECONDS);
            Extreme late = Extreme.highest(curve.part(from, end), noise, DROP_MEAN_SECONDS);
            Figure above = early.highest().less(late.highest());
            boolean clearly =
                    above.isPresent() && above.get() > Math.max(above.doubt(), CREST_SHARE * range);
            return clearly ? Optional.of(early) : Optional.empty();
        }

        Figure base() {
            double until = leftSecond - LEAVES_BASE * paceSeconds;
            return level(curve.part(curve.second(0), until), true);
        }

        Figure unloaded() {
            if (!ripple.isPresent()) {
                return Figure.absent(Absence.NO_STROKES_SEEN);
            }
            return crest.map(Extreme::highest)
                    .orElseGet(() -> level(curve.part(risenSecond, strokesFrom), false));
        }

        Figure loaded() {
            if (end - risenSecond < LOADED_SECONDS) {
                return Figure.absent(Absence.TOO_SHORT_AFTER_CLIMB);
            }
            double seconds = LOADED_SECONDS;
            if (ripple.isPresent()) {
                double stroke = 1 / ripple.frequencyHz().get();
                seconds = Math.max(1, Math.rint(LOADED_SECONDS / stroke)) * stroke;
            }
            seconds = Math.min(seconds, end - risenSecond);
            double[] psi = readings(clean.part(end - seconds + 1e-6, end));
            int strokes = noise.intervalSeconds() > SLOW_SECONDS ? (int) LOADED_SECONDS : 0;
            if (ripple.isPresent()) {
                strokes = (int) Math.ceil(seconds * ripple.frequencyHz().get() - 1e-6);
            }
            double sd = MedianError.sd(psi, noise, strokes);
            double scatter = 0;
            if (ripple.isPresent()) {
                scatter = strokeScatter(seconds);
            }
            return Figure.of(MedianError.median(psi), Figure.NORMAL_95 * Math.hypot(sd, scatter));
        }

        /** How much more the medians of the strokes scatter than noise explains, for their mean. */
        private double strokeScatter(double seconds) {
            double stroke = 1 / ripple.frequencyHz().get();
            int strokes = (int) Math.rint(seconds / stroke);
            if (strokes < 2) {
                return 0;
            }
            double sum = 0;
            double squares = 0;
            double byNoise = 0;
            for (int i = 0; i < strokes; i++) {
                double until = end - i * stroke;
                double[] psi = readings(clean.part(until - stroke + 1e-6, until));
                if (psi.length == 0) {
                    return 0;
                }
                double median = MedianError.median(psi) - lowest;
                double sd = MedianError.sd(psi, noise, 1);
                sum += median;
                squares += median * median;
                byNoise += sd * sd / strokes;
            }
            double variance = (squares - sum * sum / strokes) / (strokes - 1);
            return Math.sqrt(Math.max(0, variance - 2 * byNoise) / strokes);
        }

        Figure drop() {
            Figure loaded = loaded();
            if (!ripple.isPresent()) {
                return Figure.absent(Absence.NO_STROKES_SEEN);
            }
            if (!loaded.isPresent()) {
                return loaded;
            }
            double until = Math.min(strokesFrom, risenSecond + DROP_WITHIN_SECONDS);
            Figure highest =
                    Extreme.highest(curve.part(risenSecond, until), noise, DROP_MEAN_SECONDS)
                            .highest();
            if (!highest.isPresent()) {
                return Figure.absent(Absence.STROKES_IN_CLIMB);
            }
            return highest.less(loaded);
        }

        /** The level of the readings at the most frequent pressure. */
        private Figure level(Stretch state, boolean backwards) {
            if (state.size() == 0) {
                return Figure.absent(Absence.NO_READING_IN_STATE);
            }
            int[] near = atMode(state);
            double[] psi = new double[near.length];
            double[] creepPsi = new double[near.length];
            for (int i = 0; i < psi.length; i++) {
                int at = near[backwards ? psi.length - 1 - i : i];
                psi[i] = state.psi(at);
                creepPsi[i] = backwards ? 0 : creepPsi(state.second(at));
            }
            double seconds = psi.length * noise.intervalSeconds();
            return psi.length < LEAST_READINGS || seconds < LEAST_SECONDS
                    ? Level.ofShort(psi, creepPsi, noise)
                    : Level.settled(psi, creepPsi, noise, range);
        }

        /** What a first-order rise of the same pace still lacks of its end. */
        private double creepPsi(double second) {
            double since = (second - risenSecond) / Math.max(SLOWER * paceSeconds, 1e-6);
            return (1 - RISEN) * range * Math.exp(-Math.max(0, since));
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

        private static double[] readings(Stretch part) {
            double[] psi = new double[part.size()];
            for (int i = 0; i < psi.length; i++) {
                psi[i] = part.psi(i);
            }
            return psi;
        }
    }
}
