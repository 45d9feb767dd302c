package leat.day;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * Delays of some messages.
 *
 * @param sorted real seconds, shortest first
 */
record Delays(List<Double> sorted) {

    static Delays of(Stream<Double> seconds) {
        return new Delays(seconds.sorted().toList());
    }

    int count() {
        return sorted.size();
    }

    /** The delay that this share of all does not exceed; 0 when there are none. */
    double quantile(double share) {
        int rank = (int) Math.ceil(share * sorted.size());
        return sorted.isEmpty() ? 0 : sorted.get(Math.max(0, rank - 1));
    }

    double median() {
        return quantile(0.5);
    }

    double worst() {
        return quantile(1);
    }

    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "%4d, median %5.3f s, p90 %5.3f s, p99 %5.3f s, worst %5.3f s",
                count(),
                median(),
                quantile(0.9),
                quantile(0.99),
                worst());
    }
}
