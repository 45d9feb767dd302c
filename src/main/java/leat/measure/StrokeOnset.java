package leat.measure;

import java.util.Arrays;
import leat.measure.absence.Absence;

/**
 * When the strokes began, and the level that the pressure had right before. Immutable.
 *
 * <p>After its climb the pressure stands for a while, and then the intensifier draws: the pressure
 * falls and swings. So the seconds since the climb are cut in three: the end of the climb, along a
 * parabola; a quiet time, along a line that does not fall, with no more than noise about it; the
 * strokes, about a mean, with a swing of their own. The two cuts that make the readings most likely
 * are taken. Every other second cut counts as far as it makes them as likely, so that the doubt of
 * the level holds what the choice leaves open. A quiet time between two slow strokes is not that
 * before them: an earlier one was higher.
 *
 * @param seen whether strokes are seen, and whether the pressure was quiet before
 * @param second when they began; the last second where none are seen, the first where the pressure
 *     never was quiet
 * @param before psi of the half second before; only where it was quiet
 */
record StrokeOnset(Seen seen, double second, Figure before) {

    /** How long before the strokes the pressure is looked at. */
    static double levelSeconds(double interval) {
        return Math.max(LEVEL_SECONDS, LEAST_READINGS * interval);
    }

    /** What is seen of strokes. */
    enum Seen {
        NONE,
        FROM_THE_CLIMB_ON,
        AFTER_A_QUIET_TIME
    }

    /** Cuts that are tried; of more readings every second, third and so on. */
    private static final int CUTS = 240;

    /** Seconds before the strokes whose mean is the level. */
    private static final double LEVEL_SECONDS = 0.5;

    /** The fall into the strokes may have begun so much before the cut. */
    private static final double JUST_BEFORE_SECONDS = 0.1;

    /** The strokes may have begun as much before they were seen. */
    private static final double EARLIER_SECONDS = 0.2;

    private static final int LEAST_READINGS = 4;

    /**
     * A pressure that moves by more than this share of the climb in the half second still climbs.
     */
    static final double CLIMBS_SHARE = 0.02;

    /** Strokes must make the readings so much more likely, in logarithms. */
    private static final double LEAST_GAIN = 8;

    /** A quiet time before them must make the readings so much more likely. */
    private static final double LEAST_QUIET_GAIN = 5;

    /** A quiet time of so many level's times needs no drop after it. */
    private static final int LONG_LEVELS = 2;

    /** One of so many may come after a higher crest: slow strokes leave shorter ones. */
    private static final int LONGEST_LEVELS = 10;

    /** Strokes lower the level or swing by so much of the climb, or else are none. */
    private static final double LEAST_SHARE = 0.006;

    /**
     * @param risen readings since the climb was most of the way, single wild ones taken out
     * @param noiseSd of one of them, psi
     * @param rangePsi of the climb
     */
    static StrokeOnset of(Stretch risen, double noiseSd, double rangePsi) {
        if (risen.size() < 2 * LEAST_READINGS) {
            return none(risen.size() == 0 ? 0 : risen.second(risen.size() - 1));
        }
        return new Search(risen, noiseSd, rangePsi).onset();
    }

    private static StrokeOnset none(double second) {
        return new StrokeOnset(Seen.NONE, second, Figure.absent(Absence.NO_STROKES_SEEN));
    }

    /** The same where the climb shows that something drew in it; strokes not seen stay unseen. */
    StrokeOnset inClimb() {
        return seen != Seen.AFTER_A_QUIET_TIME
                ? this
                : new StrokeOnset(
                        Seen.FROM_THE_CLIMB_ON, second, Figure.absent(Absence.STROKES_IN_CLIMB));
    }

    private static final class Search {
        private final Stretch risen;
        private final double sd;
        private final double range;
        private final Sums sums;
        private final int[] cuts;
        private final int last;
        private final double interval;
        private final int inLevel;

        Search(Stretch risen, double noiseSd, double rangePsi) {
            this.risen = risen;
            sd = noiseSd;
            range = rangePsi;
            sums = new Sums(risen);
            int stride = Math.max(1, (risen.size() + CUTS - 1) / CUTS);
            cuts = new int[risen.size() / stride + 1];
            for (int i = 0; i < cuts.length; i++) {
                cuts[i] = Math.min(risen.size(), i * stride);
            }
            last = risen.size();
            interval = Math.max(1e-3, risen.interval());
            inLevel = (int) Math.rint(levelSeconds(interval) / interval);
        }

        StrokeOnset onset() {
            double never = Double.POSITIVE_INFINITY;
            double quiet = Double.POSITIVE_INFINITY;
            double[] climb = new double[cuts.length];
            double[] highest = new double[cuts.length];
            highest(highest);
            for (int i = 0; i < cuts.length; i++) {
                climb[i] = free(sums.squaresAboutParabola(0, cuts[i]), cuts[i]);
                never = Math.min(never, climb[i] + strokes(cuts[i]));
                quiet = Math.min(quiet, climb[i] + quiet(cuts[i], last));
            }
            double[] cost = new double[cuts.length];
            Arrays.fill(cost, Double.POSITIVE_INFINITY);
            double least = Double.POSITIVE_INFINITY;
            int best = -1;
            for (int end = 0; end < cuts.length; end++) {
                int n = last - cuts[end];
                if (n < inLevel || cuts[end] < inLevel) {
                    continue;
                }
                double level = sums.mean(cuts[end] - inLevel, cuts[end]);
                double beyond = level + LEAST_SHARE * range + 3 * sd / Math.sqrt(inLevel / 2.0);
                double drop = level - sums.mean(cuts[end], last);
                boolean drops = drop > LEAST_SHARE * range;
                if (drop < -2 * sd / Math.sqrt(inLevel)) {
                    continue; // no stroke lifts the level
                }
                int shortest = drops ? inLevel : LONG_LEVELS * inLevel;
                for (int i = 0; i < end && cuts[end] - cuts[i] >= shortest; i++) {
                    if (highest[i] <= beyond || cuts[end] - cuts[i] >= LONGEST_LEVELS * inLevel) {
                        cost[end] = Math.min(cost[end], climb[i] + quiet(cuts[i], cuts[end]));
                    }
                }
                cost[end] += strokes(cuts[end]);
                if (cost[end] < least) {
                    least = cost[end];
                    best = end;
                }
            }
            if (best >= 0
                    && least < quiet - LEAST_GAIN
                    && least < never - LEAST_QUIET_GAIN
                    && isPlain(cuts[best])) {
                return after(cost, least, best);
            }
            return never < quiet - LEAST_GAIN && isPlainFromClimb()
                    ? new StrokeOnset(Seen.FROM_THE_CLIMB_ON, risen.second(0), inClimb())
                    : none(risen.second(last - 1));
        }

        private Figure inClimb() {
            return Figure.absent(Absence.STROKES_IN_CLIMB);
        }

        /** Highest level of a moment that ends before each cut. */
        private void highest(double[] highest) {
            double high = Double.NEGATIVE_INFINITY;
            int moment = Math.max(2, inLevel / 2);
            for (int i = 0; i < cuts.length; i++) {
                if (cuts[i] >= moment) {
                    high = Math.max(high, sums.mean(cuts[i] - moment, cuts[i]));
                }
                highest[i] = high;
            }
        }

        private boolean isPlain(int cut) {
            double level = sums.mean(cut - inLevel, cut);
            double drop = level - sums.mean(cut, last);
            double swing = Math.sqrt(sums.squaresAboutParabola(cut, last) / (last - cut));
            double least = LEAST_SHARE * range;
            return drop > least || Math.sqrt(Math.max(0, swing * swing - sd * sd)) > least;
        }

        private boolean isPlainFromClimb() {
            int from = last / 2;
            double swing = Math.sqrt(sums.squaresAboutParabola(from, last) / (last - from));
            return Math.sqrt(Math.max(0, swing * swing - sd * sd)) > LEAST_SHARE * range;
        }

        private StrokeOnset after(double[] cost, double least, int best) {
            double weights = 0;
            double sum = 0;
            double squares = 0;
            double seconds = 0;
            double origin = level(cuts[best]);
            for (int i = 0; i < cuts.length; i++) {
                double weight = Math.exp(least - cost[i]);
                if (weight > 1e-6) {
                    double level = level(cuts[i]) - origin;
                    weights += weight;
                    sum += weight * level;
                    squares += weight * level * level;
                    seconds += weight * risen.second(Math.min(last - 1, cuts[i]));
                }
            }
            double mean = sum / weights;
            double choice = Math.max(0, squares / weights - mean * mean);
            int from = cuts[best] - inLevel;
            double slope = sums.slope(from, cuts[best]);
            double late = Math.max(0, slope) * Math.max(JUST_BEFORE_SECONDS, interval);
            double noise = sd * sd / inLevel;
            double earlier = earlier(cuts[best], noise);
            choice += earlier * earlier / (earlier > 0 ? 12 : 8);
            double second = seconds / weights;
            if (Math.abs(slope) * LEVEL_SECONDS > CLIMBS_SHARE * range) {
                return new StrokeOnset(Seen.AFTER_A_QUIET_TIME, second, inClimb());
            }
            double u95 = Figure.NORMAL_95 * Math.sqrt(noise + choice + late * late / 3);
            return new StrokeOnset(
                    Seen.AFTER_A_QUIET_TIME,
                    second,
                    Figure.of(origin + mean + late / 2 + Math.max(0, earlier) / 3, u95));
        }

        /**
         * By how much the level was other a moment earlier, beyond noise: higher where the
         * intensifier had begun to draw a little.
         */
        private double earlier(int cut, double noise) {
            int moment = (int) Math.rint(EARLIER_SECONDS / interval);
            double other = level(Math.max(inLevel, cut - moment)) - level(cut);
            double beyond = Math.max(0, other * other - 2 * noise * moment / inLevel);
            return Math.copySign(Math.sqrt(beyond), other);
        }

        private double level(int cut) {
            int until = cut - (int) Math.rint(JUST_BEFORE_SECONDS / interval);
            int from = Math.max(0, until - inLevel);
            return sums.mean(from, Math.max(from + 1, until));
        }

        private double quiet(int from, int end) {
            return sums.squaresAboutRise(from, end) / (2 * sd * sd) + (end - from) * Math.log(sd);
        }

        private double strokes(int from) {
            return free(sums.squaresAboutParabola(from, last), last - from);
        }

        /** About a course of its own swing, which is no less than the noise. */
        private double free(double squares, int n) {
            if (n == 0) {
                return 0;
            }
            double variance = Math.max(sd * sd, squares / n);
            return n * Math.log(variance) / 2 + squares / (2 * variance);
        }
    }

    /** Sums over the readings up to each, for fits to any stretch of them. */
    private static final class Sums {
        private final double[][] up;

        /** Of t, t2, t3, t4, y, t y, t2 y, y2; times from the first reading. */
        private static final int TERMS = 8;

        Sums(Stretch risen) {
            up = new double[TERMS][risen.size() + 1];
            double origin = risen.psi(risen.size() - 1);
            for (int i = 0; i < risen.size(); i++) {
                double t = risen.second(i) - risen.second(0);
                double y = risen.psi(i) - origin;
                double[] terms = {t, t * t, t * t * t, t * t * t * t, y, t * y, t * t * y, y * y};
                for (int k = 0; k < TERMS; k++) {
                    up[k][i + 1] = up[k][i] + terms[k];
                }
            }
            this.origin = origin;
        }

        private final double origin;

        private double sum(int k, int from, int end) {
            return up[k][end] - up[k][from];
        }

        double mean(int from, int end) {
            return origin + sum(4, from, end) / (end - from);
        }

        double squaresAboutMean(int from, int end) {
            double n = end - from;
            double y = sum(4, from, end);
            return n == 0 ? 0 : Math.max(0, sum(7, from, end) - y * y / n);
        }

        double slope(int from, int end) {
            double n = end - from;
            double t = sum(0, from, end);
            double squares = sum(1, from, end) - t * t / n;
            double products = sum(5, from, end) - t * sum(4, from, end) / n;
            return squares > 0 ? products / squares : 0;
        }

        double squaresAboutLine(int from, int end) {
            double n = end - from;
            if (n < 3) {
                return 0;
            }
            double t = sum(0, from, end);
            double products = sum(5, from, end) - t * sum(4, from, end) / n;
            return Math.max(0, squaresAboutMean(from, end) - slope(from, end) * products);
        }

        /** About a line that does not fall. */
        double squaresAboutRise(int from, int end) {
            return slope(from, end) > 0 ? squaresAboutLine(from, end) : squaresAboutMean(from, end);
        }

        double squaresAboutParabola(int from, int end) {
            double n = end - from;
            if (n < 4) {
                return 0;
            }
            double t = sum(0, from, end) / n;
            double y = sum(4, from, end) / n;
            double t2 = sum(1, from, end) / n;
            // moments about the means, per reading
            double m2 = t2 - t * t;
            double m3 = sum(2, from, end) / n - 3 * t * t2 + 2 * t * t * t;
            double m4 =
                    sum(3, from, end) / n
                            - 4 * t * sum(2, from, end) / n
                            + 6 * t * t * t2
                            - 3 * t * t * t * t;
            double ty = sum(5, from, end) / n - t * y;
            double t2y = sum(6, from, end) / n - 2 * t * sum(5, from, end) / n + t * t * y - m2 * y;
            double bend = m4 - m2 * m2 - m3 * m3 / m2;
            double left = sum(7, from, end) / n - y * y - ty * ty / m2;
            double bent = t2y - m3 * ty / m2;
            return n * Math.max(0, bend > 1e-12 ? left - bent * bent / bend : left);
        }
    }
}
