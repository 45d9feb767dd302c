package leat.bench.recording;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.bench.line.LineState;

/**
 * Measures starts on what is true in the line, step by step. It knows nothing of the way a watcher
 * measures them. Thread-confined.
 */
final class TruthMeter {

    private static final long CURVE_MICROS = 25_000_000;
    private static final long LEVEL_AFTER_MICROS = 15_000_000;
    private static final double TOP_SECONDS = 3;
    private static final double NEAR_TOP = 0.98;
    private static final double LEAST_CLIMB_PSI = 10;
    private static final int MOST_STEPS = 30_000;

    private final double[] curvePsi = new double[MOST_STEPS];
    private final double[] curveSeconds = new double[MOST_STEPS];
    private final Levels boosted = new Levels();
    private final Levels inlet = new Levels();
    private List<String> defectsAtStart = List.of();
    private int steps;
    private boolean running;
    private long startMicros;
    private long lastMicros;
    private double basePsi;
    private double inletRestPsi;
    private double restBoostedPsi;
    private double restInletPsi;

    /**
     * Takes one step.
     *
     * @param micros time since the start of the recording, rising
     * @param defects what is wrong now
     * @return the start that ended with it
     */
    Optional<TrueStart> see(long micros, LineState truth, Defects defects) {
        Optional<TrueStart> ended = Optional.empty();
        if (truth.running() && !running) {
            begin(defects);
        } else if (!truth.running() && running) {
            ended = end(defects);
        }
        running = truth.running();
        if (running) {
            follow(micros, truth);
        }
        lastMicros = micros;
        before(truth);
        return ended;
    }

    /** Says what is wrong with the machine now. */
    @FunctionalInterface
    interface Defects {
        List<String> now();
    }

    /** What stood before the first step. */
    void before(LineState truth) {
        restBoostedPsi = truth.boostedPsi();
        restInletPsi = truth.inletPsi();
    }

    private void begin(Defects defects) {
        startMicros = lastMicros;
        defectsAtStart = defects.now();
        basePsi = restBoostedPsi;
        inletRestPsi = restInletPsi;
        steps = 0;
        boosted.clear();
        inlet.clear();
    }

    private void follow(long micros, LineState truth) {
        long since = micros - startMicros;
        if (since <= CURVE_MICROS && steps < MOST_STEPS) {
            curveSeconds[steps] = since / 1e6;
            curvePsi[steps] = truth.boostedPsi();
            steps++;
        }
        if (since >= LEVEL_AFTER_MICROS) {
            boosted.add(truth.boostedPsi());
            inlet.add(truth.inletPsi());
        }
    }

    /** The start at hand, as far as it went. */
    Optional<TrueStart> end(Defects defects) {
        if (!running) {
            return Optional.empty();
        }
        running = false;
        double topPsi = topPsi();
        OptionalDouble levelPsi = boosted.median();
        return Optional.of(
                new TrueStart(
                        startMicros,
                        (lastMicros - startMicros) / 1e6,
                        riseSeconds(topPsi),
                        levelPsi.isPresent()
                                ? riseSeconds(levelPsi.getAsDouble())
                                : OptionalDouble.empty(),
                        basePsi,
                        topPsi,
                        levelPsi,
                        inletRestPsi,
                        inlet.median(),
                        defectsAtStart,
                        defects.now()));
    }

    private double topPsi() {
        double highest = Arrays.stream(curvePsi, 0, steps).max().orElse(basePsi);
        int from = 0;
        while (from < steps && curvePsi[from] < NEAR_TOP * highest) {
            from++;
        }
        int to = from;
        while (to < steps && curveSeconds[to] <= curveSeconds[from] + TOP_SECONDS) {
            to++;
        }
        double[] top = Arrays.copyOfRange(curvePsi, from, Math.max(to, from));
        Arrays.sort(top);
        return top.length == 0 ? highest : top[top.length / 2];
    }

    private OptionalDouble riseSeconds(double topPsi) {
        double climb = topPsi - basePsi;
        if (!(climb >= LEAST_CLIMB_PSI)) {
            return OptionalDouble.empty();
        }
        double low = basePsi + 0.1 * climb;
        double high = basePsi + 0.9 * climb;
        int above = 0;
        while (above < steps && curvePsi[above] < high) {
            above++;
        }
        int below = Math.min(above, steps - 1);
        while (below >= 0 && curvePsi[below] >= low) {
            below--;
        }
        return above >= steps || above == 0 || below < 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(crossing(above - 1, high) - crossing(below, low));
    }

    private double crossing(int before, double psi) {
        double share = (psi - curvePsi[before]) / (curvePsi[before + 1] - curvePsi[before]);
        double step = curveSeconds[before + 1] - curveSeconds[before];
        return curveSeconds[before] + share * step;
    }
}
