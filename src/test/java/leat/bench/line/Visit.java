package leat.bench.line;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * One start of a line as somebody sees it who watches the gauges: 5 s of rest, 40 s running, 60 s
 * of rest again, read 100 times a second.
 */
final class Visit {

    static final double STEP = 0.01;
    private static final double BEFORE = 5;
    private static final double RUNNING = 40;
    private static final double AFTER = 60;

    private final List<LineState> before = new ArrayList<>();
    private final List<LineState> running = new ArrayList<>();
    private final List<LineState> after = new ArrayList<>();

    private Visit() {}

    static Visit to(FeedLine line) {
        Visit visit = new Visit();
        watch(line, BEFORE, visit.before);
        line.start();
        watch(line, RUNNING, visit.running);
        line.stop();
        watch(line, AFTER, visit.after);
        return visit;
    }

    private static void watch(FeedLine line, double seconds, List<LineState> states) {
        for (int i = 0; i < Math.round(seconds / STEP); i++) {
            line.advance(STEP);
            states.add(line.state());
        }
    }

    List<LineState> running() {
        return running;
    }

    /** The second half of the run. */
    private List<LineState> steady() {
        return running.subList(running.size() / 2, running.size());
    }

    private static double mean(List<LineState> states, ToDoubleFunction<LineState> value) {
        return states.stream().mapToDouble(value).average().orElseThrow();
    }

    double levelPsi() {
        return mean(steady(), LineState::boostedPsi);
    }

    double inletPsi() {
        return mean(steady(), LineState::inletPsi);
    }

    double inletAtRestPsi() {
        return mean(before, LineState::inletPsi);
    }

    double sagPsi() {
        return inletAtRestPsi() - inletPsi();
    }

    double lowestInletPsi() {
        return running.stream().mapToDouble(LineState::inletPsi).min().orElseThrow();
    }

    double ratio() {
        return levelPsi() / inletPsi();
    }

    double filterLossPsi() {
        return levelPsi() - mean(steady(), LineState::filteredPsi);
    }

    /** Boosted pressure at the end of the rest. */
    double restPsi() {
        return after.get(after.size() - 1).boostedPsi();
    }

    /** Seconds from the start to a pressure; as long as the run where it was never reached. */
    double secondsTo(double psi) {
        return firstOf(running, state -> state.boostedPsi() >= psi) * STEP;
    }

    /** From 10 to 90 % of the level, from where the line stood. */
    double riseSeconds() {
        double base = running.get(0).boostedPsi();
        double top = levelPsi() - base;
        return secondsTo(base + 0.9 * top) - secondsTo(base + 0.1 * top);
    }

    double deadSeconds() {
        double base = running.get(0).boostedPsi();
        return secondsTo(base + 0.1 * (levelPsi() - base));
    }

    /** From the stop to a quarter of the level. */
    double fallSeconds() {
        double quarter = levelPsi() / 4;
        return firstOf(after, state -> state.boostedPsi() <= quarter) * STEP;
    }

    private static int firstOf(
            List<LineState> states, java.util.function.Predicate<LineState> condition) {
        int i = 0;
        while (i < states.size() && !condition.test(states.get(i))) {
            i++;
        }
        return i;
    }

    /** Highest 0.3 s mean of the first 9 s, which is before the strokes or just as they begin. */
    double unloadedPsi() {
        int window = (int) Math.round(0.3 / STEP);
        double highest = 0;
        for (int i = 0; i + window < 9 / STEP; i++) {
            highest =
                    Math.max(highest, mean(running.subList(i, i + window), LineState::boostedPsi));
        }
        return highest;
    }

    double dropPsi() {
        return unloadedPsi() - levelPsi();
    }

    /** Standard deviation of the 1.5 s moving mean. */
    double wanderPsi() {
        return deviation(movingMeans());
    }

    /** Standard deviation of what the 1.5 s moving mean leaves. */
    double ripplePsi() {
        List<Double> means = movingMeans();
        List<Double> rest = new ArrayList<>();
        int half = (steady().size() - means.size()) / 2;
        for (int i = 0; i < means.size(); i++) {
            rest.add(steady().get(i + half).boostedPsi() - means.get(i));
        }
        return deviation(rest);
    }

    private List<Double> movingMeans() {
        int window = (int) Math.round(1.5 / STEP);
        List<Double> means = new ArrayList<>();
        double sum = 0;
        for (int i = 0; i < steady().size(); i++) {
            sum += steady().get(i).boostedPsi();
            if (i >= window) {
                sum -= steady().get(i - window).boostedPsi();
                means.add(sum / window);
            }
        }
        return means;
    }

    private static double deviation(List<Double> values) {
        double mean = values.stream().mapToDouble(v -> v).average().orElseThrow();
        double squares = values.stream().mapToDouble(v -> (v - mean) * (v - mean)).sum();
        return Math.sqrt(squares / values.size());
    }
}
