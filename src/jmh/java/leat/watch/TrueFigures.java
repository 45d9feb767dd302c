package leat.watch;

import java.util.Arrays;

/**
 * What is true of a start, from the noise-free course of the model and from what its intensifier
 * really drew; nothing of it comes from leat's own measuring or choice. Seconds from the beginning
 * of the record; a number that is not there is NaN. Immutable.
 *
 * <ul>
 *   <li>base: lowest pressure from 0.5 s before the start until the climb is half done.
 *   <li>unloaded: what the climb had reached before the intensifier first drew half of its usual
 *       draw, the highest mean of 0.5 s that ends in the 0.4 s before. It begins to draw a little
 *       0.3 s earlier, and a weak pump gives way to that.
 *   <li>loaded: mean over the last whole strokes, of which there are as many as cover 5 s or as
 *       there are; a stroke is from one reversal to the next, the first second of drawing is left
 *       off, and so is what came before nine tenths of the climb.
 *   <li>end: that loaded level, or mean of the last 3 s after nine tenths of the climb where there
 *       are no whole strokes.
 *   <li>inlet: mean over the seconds of the loaded level, or of the last 3 s where there is none.
 *   <li>ratio: end over that inlet.
 *   <li>rise: between the first crossings of 10 and 90 % from base to a level.
 * </ul>
 */
final class TrueFigures {

    private static final double LOADED_SECONDS = 5;
    private static final double END_SECONDS = 3;
    private static final double UNLOADED_SECONDS = 0.5;
    private static final double BEFORE_SECONDS = 0.4;
    private static final double EARLIER_SECONDS = 0.05;
    private static final double TAKE_UP_SECONDS = 1;

    /** Of the climb to the highest pressure; what is lower is no level that it reached. */
    private static final double RISEN = 0.9;

    /** It draws in earnest from this share of its usual draw on, and turns round below it. */
    private static final double TURNS = 0.5;

    private final double[] boosted;
    private final double[] inlet;
    private final double start;
    private final double strokesFrom;
    private final double risen;
    private final double loadedFrom;
    private final double loadedTo;
    private final double end;

    /**
     * @param endSecond of what leat could see of the level: when it measured or the run stopped
     */
    TrueFigures(DrawnStart drawn, double endSecond) {
        boosted = drawn.course().boosted();
        inlet = drawn.course().inlet();
        start = drawn.startSecond();
        end = endSecond;
        double[] draw = drawn.course().drawn();
        int first = step(start);
        while (first < step(end) && draw[first] < TURNS) {
            first++;
        }
        strokesFrom = first < step(end) ? first / (double) DrawnStart.HZ : Double.NaN;
        risen = risen();
        double from = Double.NaN;
        double to = Double.NaN;
        double earliest = Math.max(first + TAKE_UP_SECONDS * DrawnStart.HZ, step(risen));
        for (int i = step(end); i > earliest; i--) {
            boolean turns = draw[i - 1] >= TURNS && draw[i] < TURNS;
            if (turns && Double.isNaN(to)) {
                to = i / (double) DrawnStart.HZ;
            } else if (turns && !(to - from >= LOADED_SECONDS)) {
                from = i / (double) DrawnStart.HZ;
            }
        }
        loadedFrom = from;
        loadedTo = to;
    }

    private static int step(double second) {
        return (int) Math.round(second * DrawnStart.HZ);
    }

    private double risen() {
        double base = base();
        double highest = Arrays.stream(boosted, step(start), step(end)).max().orElseThrow();
        int i = step(start);
        while (i < step(end) && boosted[i] < base + RISEN * (highest - base)) {
            i++;
        }
        return i / (double) DrawnStart.HZ;
    }

    private double endFrom() {
        return Math.max(risen, end - END_SECONDS);
    }

    double base() {
        int from = step(start - 0.5);
        int until = step(end);
        double least = boosted[from];
        double highest = Arrays.stream(boosted, from, until).max().orElseThrow();
        for (int i = from; i < until && boosted[i] < (least + highest) / 2; i++) {
            least = Math.min(least, boosted[i]);
        }
        return least;
    }

    double unloaded() {
        if (Double.isNaN(strokesFrom)) {
            return Double.NaN;
        }
        double highest = Double.NEGATIVE_INFINITY;
        for (double to = strokesFrom; to > strokesFrom - BEFORE_SECONDS; to -= EARLIER_SECONDS) {
            highest = Math.max(highest, mean(boosted, to - UNLOADED_SECONDS, to));
        }
        return highest;
    }

    double loaded() {
        return mean(boosted, loadedFrom, loadedTo);
    }

    double end() {
        return Double.isNaN(loadedFrom) ? mean(boosted, endFrom(), end) : loaded();
    }

    double inlet() {
        return Double.isNaN(loadedFrom)
                ? mean(inlet, endFrom(), end)
                : mean(inlet, loadedFrom, loadedTo);
    }

    /** Mean over the seconds of the unloaded level. */
    double inletBeforeStrokes() {
        return mean(inlet, strokesFrom - UNLOADED_SECONDS, strokesFrom);
    }

    double ratio() {
        return end() / inlet();
    }

    double rise(double level) {
        double base = base();
        return crossing(base + 0.9 * (level - base)) - crossing(base + 0.1 * (level - base));
    }

    private double crossing(double psi) {
        for (int i = step(start) + 1; i < step(end); i++) {
            if (boosted[i - 1] < psi && boosted[i] >= psi) {
                return (i - 1 + (psi - boosted[i - 1]) / (boosted[i] - boosted[i - 1]))
                        / DrawnStart.HZ;
            }
        }
        return Double.NaN;
    }

    private static double mean(double[] psi, double from, double to) {
        if (Double.isNaN(from) || Double.isNaN(to)) {
            return Double.NaN;
        }
        return Arrays.stream(psi, step(from), step(to)).average().orElse(Double.NaN);
    }
}
