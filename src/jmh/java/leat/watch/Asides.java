package leat.watch;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;

/**
 * Numbers that leat does not measure, from the readings of one run as a watch gets them, to try
 * what they would add to a diagnosis. Thread-confined.
 */
final class Asides {

    private static final int FILLING = 6;
    private static final int BLOCK = 10;

    private final List<double[]> seconds = new ArrayList<>();
    private double[] now = new double[6];

    void clear() {
        seconds.clear();
        now = new double[6];
    }

    /** A reading of the run. */
    void read(Input input) {
        if (input instanceof Reading reading && reading.quality().isUsable()) {
            if (reading.channel() == Channel.INLET) {
                now[0]++;
                now[1] += reading.value();
                now[2] += reading.value() * reading.value();
            } else if (reading.channel() == Channel.BOOSTED) {
                now[3]++;
                now[4] += reading.value();
                now[5] += reading.value() * reading.value();
            }
        } else if (input instanceof leat.signal.Tick) {
            seconds.add(now);
            now = new double[6];
        }
    }

    /**
     * @param runSeconds how long the run was; what follows is the stop
     */
    Map<String, Double> of(double runSeconds) {
        Map<String, Double> asides = new HashMap<>();
        int to = (int) Math.min(seconds.size(), Math.floor(runSeconds) - 1);
        List<double[]> run = to > FILLING ? seconds.subList(FILLING, to) : List.of();
        put(asides, "inletWander", wander(run, 0));
        put(asides, "boostedWander", wander(run, 3));
        put(asides, "inletRipple", ripple(run, 0));
        put(asides, "boostedRipple", ripple(run, 3));
        put(
                asides,
                "inletLowest",
                run.stream()
                        .filter(s -> s[0] > 0)
                        .mapToDouble(s -> s[1] / s[0])
                        .min()
                        .orElse(Double.NaN));
        put(
                asides,
                "boostedLowest",
                run.stream()
                        .filter(s -> s[3] > 0)
                        .mapToDouble(s -> s[4] / s[3])
                        .min()
                        .orElse(Double.NaN));
        put(asides, "correlation", correlation(run));
        return asides;
    }

    private static void put(Map<String, Double> asides, String key, double value) {
        if (Double.isFinite(value)) {
            asides.put(key, value);
        }
    }

    private static double ripple(List<double[]> run, int of) {
        return Math.sqrt(
                run.stream()
                        .filter(s -> s[of] > 1)
                        .mapToDouble(
                                s ->
                                        Math.max(
                                                0,
                                                s[of + 2] / s[of] - Math.pow(s[of + 1] / s[of], 2)))
                        .average()
                        .orElse(Double.NaN));
    }

    private static double wander(List<double[]> run, int of) {
        double squares = 0;
        int n = 0;
        for (int from = 0; from + 5 <= run.size(); from += BLOCK) {
            double[] means =
                    run.subList(from, Math.min(run.size(), from + BLOCK)).stream()
                            .filter(s -> s[of] > 0)
                            .mapToDouble(s -> s[of + 1] / s[of])
                            .toArray();
            double mean = java.util.Arrays.stream(means).average().orElse(0);
            for (double one : means) {
                squares += (one - mean) * (one - mean);
            }
            n += Math.max(0, means.length - 1);
        }
        return n < 4 ? Double.NaN : Math.sqrt(squares / n);
    }

    private static double correlation(List<double[]> run) {
        double[][] both =
                run.stream()
                        .filter(s -> s[0] > 0 && s[3] > 0)
                        .map(s -> new double[] {s[1] / s[0], s[4] / s[3]})
                        .toArray(double[][]::new);
        if (both.length < 6) {
            return Double.NaN;
        }
        double x = 0;
        double y = 0;
        for (double[] one : both) {
            x += one[0] / both.length;
            y += one[1] / both.length;
        }
        double xx = 1e-3;
        double yy = 1e-3;
        double xy = 0;
        for (double[] one : both) {
            xx += (one[0] - x) * (one[0] - x);
            yy += (one[1] - y) * (one[1] - y);
            xy += (one[0] - x) * (one[1] - y);
        }
        return xy / Math.sqrt(xx * yy);
    }
}
