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
        double ceiling = Math.max(floor, ceiling(measurand, Math.abs(middle)));
        double spread = Math.min(ceiling, NORMAL * median(distances));
        return new Usual(middle, Math.max(floor, spread), values.length);
    }

    /**
     * A machine that scatters by more does not scatter by nature: something is wrong with it, or it
     * was changed while leat learned. Three spreads of a level reach to its fixed limit and no
     * further, and a climb of half its slope is a slow one, however the starts before it were. Own
     * choice, no published source.
     */
    private static double ceiling(Measurand measurand, double middle) {
        return switch (measurand) {
            case TOP, LOADED, UNLOADED -> 0.033 * middle;
            case BOOST_RATE -> 0.2 * middle;
            case RISE, TIME_TO_LEVEL, FALL -> 0.35 * middle;
            case INLET_SAG, DROP, FILTER_LOSS -> 2;
            default -> Double.POSITIVE_INFINITY;
        };
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
