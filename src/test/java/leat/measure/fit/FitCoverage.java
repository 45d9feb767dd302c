package leat.measure.fit;

import java.util.Map;
import java.util.TreeMap;

/** Counts how often a stated interval holds the truth. Confined to one test. */
final class FitCoverage {

    private final Map<String, int[]> counts = new TreeMap<>();
    private int cases;
    private int refused;

    void add(String name, Estimate estimate, double truth) {
        int[] count = counts.computeIfAbsent(name, key -> new int[2]);
        count[0] += estimate.holds(truth) ? 1 : 0;
        count[1]++;
    }

    void present() {
        cases++;
    }

    void refused() {
        cases++;
        refused++;
    }

    double refusedShare() {
        return refused / (double) cases;
    }

    /** Share of the cases in which the interval held the truth, by the name of the number. */
    Map<String, Double> shares() {
        Map<String, Double> shares = new TreeMap<>();
        counts.forEach((name, count) -> shares.put(name, count[0] / (double) count[1]));
        return shares;
    }
}
