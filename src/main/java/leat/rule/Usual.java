package leat.rule;

import java.util.Arrays;
import leat.measure.Measurand;

/**
 * What is usual for a machine of one measurand.
 *
 * @param median middle of the starts that the baseline is made of, in the unit of the measurand
 * @param spread 1.4826 times the median distance from the median, which for normally scattered
 *     values is their standard deviation (Rousseeuw and Croux, JASA 88, 1993); in the same unit,
 *     above 0
 * @param count starts that had this number
 */
public record Usual(double median, double spread, int count) {

    private static final double NORMAL = 1.4826;

    /** Share of the median below which no spread is believed. */
    private static final double FLOOR_SHARE = 0.01;

    public Usual {
        if (!Double.isFinite(median) || !(spread > 0) || !Double.isFinite(spread) || count < 1) {
            throw new IllegalArgumentException(median + ", spread " + spread + " of " + count);
        }
    }

    /**
     * @param values at least one, finite
     */
    static Usual of(Measurand measurand, double[] values) {
        double middle = median(values);
        double[] distances = Arrays.stream(values).map(v -> Math.abs(v - middle)).toArray();
        double floor = Math.max(FLOOR_SHARE * Math.abs(middle), floor(measurand.unit()));
        return new Usual(middle, Math.max(floor, NORMAL * median(distances)), values.length);
    }

    /**
     * A few like numbers do not make a spread of nothing: about what sampling at 20 Hz and a 12-bit
     * converter leave open. Own model runs, no published source.
     */
    private static double floor(Measurand.Unit unit) {
        return switch (unit) {
            case PRESSURE -> 0.25;
            case PRESSURE_RATE -> 1;
            case TIME -> 0.05;
            case RATIO -> 0.02;
            case PERCENT -> 0.5;
            case FREQUENCY -> 0.02;
        };
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int half = sorted.length / 2;
        return sorted.length % 2 == 1
                ? sorted[half]
                : sorted[half - 1] + (sorted[half] - sorted[half - 1]) / 2;
    }
}
