package leat.watch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import leat.bench.line.LineState;

/**
 * One run as gauges without noise show it, from the contactor to the next start; the first state is
 * that before it. Knows nothing of the way leat measures. Thread-confined.
 */
final class Trace {

    /** Seconds between two states. */
    static final double STEP = 0.05;

    private static final int SECOND = (int) Math.round(1 / STEP);

    /** The first seconds of a start, in which the line fills. */
    private static final int FILLING = 5 * SECOND;

    private static final int CLIMB = 25 * SECOND;

    /** A level that climbs by less within three seconds stands. */
    private static final double STANDS_PSI = 2;

    private static final int TAKE_UP = 2 * SECOND;
    private static final int LET_GO = SECOND / 2;
    private static final int LEAST_STATES = SECOND / 2;
    private static final int WANDER = 3 * SECOND / 2;
    private static final int LEAST_WANDER = 5 * SECOND;
    private static final double LEAST_CLIMB = 10;

    private final List<LineState> states = new ArrayList<>();

    void add(LineState state) {
        states.add(state);
    }

    Seen seen() {
        int stop = last(i -> states.get(i).running()) + 1;
        int on = Math.min(first(0, stop, i -> states.get(i).running()), stop);
        int climbEnd = climbEnd(on, stop);
        double base = states.get(0).boostedPsi();
        double top = top(on, climbEnd);
        boolean climbed = top - base >= LEAST_CLIMB;
        int at10 = first(on, stop, i -> boosted(i) >= base + 0.1 * (top - base));
        int at90 = first(on, stop, i -> boosted(i) >= base + 0.9 * (top - base));
        int[] phase = phases(on, stop);
        IntPredicate loaded = i -> i >= on + FILLING && phase[i] > TAKE_UP;
        IntPredicate unloaded = i -> climbed && i > at90 + LET_GO && phase[i] < -LET_GO;
        IntPredicate filled = i -> i >= on + FILLING;
        double loadedInlet = median(on, stop, loaded, i -> states.get(i).inletPsi());
        return new Seen(
                median(on, stop, loaded, this::boosted),
                median(on, stop, unloaded, this::boosted),
                states.get(0).inletPsi(),
                Double.isNaN(loadedInlet)
                        ? median(on, stop, filled, i -> states.get(i).inletPsi())
                        : loadedInlet,
                lowestInlet(on + FILLING, stop),
                median(on, stop, loaded, i -> boosted(i) - states.get(i).filteredPsi()),
                climbed ? (at90 - at10) * STEP : Double.NaN,
                climbed ? (at10 - on) * STEP : Double.NaN,
                climbed ? (at90 - on) * STEP : reachedNothing(on, stop),
                wander(on, stop, phase),
                fall(stop),
                boosted(states.size() - 1),
                boosted(Math.max(stop, states.size() - 1 - 10 * SECOND))
                        - boosted(states.size() - 1),
                count(on, stop, loaded) * STEP);
    }

    private static double reachedNothing(int on, int stop) {
        return stop - on > 12 * SECOND ? Double.POSITIVE_INFINITY : Double.NaN;
    }

    /**
     * Where the climb is looked at until: the jet is turned off on a level that stood, and what the
     * pressure climbs to then is the level without the jet and no part of the start.
     */
    private int climbEnd(int on, int stop) {
        int end = Math.min(stop, on + CLIMB);
        for (int i = on + 1; i < end; i++) {
            boolean turnedOff = states.get(i - 1).cutting() && !states.get(i).cutting();
            if (turnedOff && i - on > 3 * SECOND && risenIn(i - 3 * SECOND, i) < STANDS_PSI) {
                return i;
            }
        }
        return end;
    }

    /** By how much the mean of the last of some seconds lies above that of the first. */
    private double risenIn(int from, int end) {
        double first = median(from, from + SECOND, i -> true, this::boosted);
        return median(end - SECOND, end, i -> true, this::boosted) - first;
    }

    private double boosted(int i) {
        return states.get(Math.min(i, states.size() - 1)).boostedPsi();
    }

    /** The middle of the three seconds after it first came near its highest. */
    private double top(int on, int end) {
        double highest = states.get(0).boostedPsi();
        for (int i = on; i < end; i++) {
            highest = Math.max(highest, boosted(i));
        }
        double near = 0.98 * highest;
        int from = first(on, end, i -> boosted(i) >= near);
        int to = Math.min(end, from + 3 * SECOND);
        return from >= to ? highest : median(from, to, i -> true, this::boosted);
    }

    /** How many states the jet has been on (above 0) or off (below 0). */
    private int[] phases(int on, int stop) {
        int[] phase = new int[states.size()];
        for (int i = on; i < stop; i++) {
            int before = i == on ? 0 : phase[i - 1];
            phase[i] = states.get(i).cutting() ? Math.max(before, 0) + 1 : Math.min(before, 0) - 1;
        }
        return phase;
    }

    private double lowestInlet(int from, int stop) {
        double lowest = Double.NaN;
        double sum = 0;
        for (int i = from; i < stop; i++) {
            sum += states.get(i).inletPsi();
            if (i - from >= SECOND) {
                sum -= states.get(i - SECOND).inletPsi();
                lowest = Double.isNaN(lowest) ? sum / SECOND : Math.min(lowest, sum / SECOND);
            }
        }
        return lowest;
    }

    /** The most of any stretch with the jet on. */
    private double wander(int on, int stop, int[] phase) {
        double most = Double.NaN;
        for (int i = on; i < stop; i++) {
            boolean ends = i + 1 == stop || phase[i + 1] < 0;
            int long0 = phase[i] - TAKE_UP;
            if (ends && long0 >= LEAST_WANDER && i - long0 >= on + FILLING) {
                double wander = wander(i - long0, i);
                most = Double.isNaN(most) ? wander : Math.max(most, wander);
            }
        }
        return most;
    }

    private double wander(int from, int to) {
        double sum = 0;
        double means = 0;
        double squares = 0;
        int n = 0;
        for (int i = from; i < to; i++) {
            sum += boosted(i);
            if (i - from >= WANDER) {
                sum -= boosted(i - WANDER);
                means += sum / WANDER;
                squares += sum / WANDER * sum / WANDER;
                n++;
            }
        }
        return Math.sqrt(Math.max(squares / n - means / n * means / n, 0));
    }

    private double fall(int stop) {
        double quarter = boosted(stop - 1) / 4;
        int at = first(stop, states.size(), i -> boosted(i) <= quarter);
        return at < states.size() ? (at - stop) * STEP : Double.NaN;
    }

    private int first(int from, int to, IntPredicate condition) {
        int i = from;
        while (i < to && !condition.test(i)) {
            i++;
        }
        return i;
    }

    private int last(IntPredicate condition) {
        int i = states.size() - 1;
        while (i > 0 && !condition.test(i)) {
            i--;
        }
        return i;
    }

    private static int count(int from, int to, IntPredicate condition) {
        int n = 0;
        for (int i = from; i < to; i++) {
            n += condition.test(i) ? 1 : 0;
        }
        return n;
    }

    private double median(int from, int to, IntPredicate condition, IntToDoubleFunction value) {
        double[] values = new double[Math.max(to - from, 0)];
        int n = 0;
        for (int i = from; i < to; i++) {
            if (condition.test(i)) {
                values[n++] = value.applyAsDouble(i);
            }
        }
        Arrays.sort(values, 0, n);
        return n < LEAST_STATES ? Double.NaN : values[n / 2];
    }
}
