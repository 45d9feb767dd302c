package leat.measure;

import java.util.Arrays;
import java.util.function.LongFunction;

/** Counts over many seeded cases how often the truth lay within the uncertainty that was said. */
final class Coverage {

    /** One measured number beside the truth. */
    record Case(Figure measured, double truth) {}

    private final String what;
    private final double[] ratios;
    private final double[] uncertainties;
    private final double[] errors;
    private final int asked;
    private final String whyAbsent;

    private Coverage(
            String what,
            double[] ratios,
            double[] uncertainties,
            double[] errors,
            int asked,
            String whyAbsent) {
        this.what = what;
        this.ratios = ratios;
        this.uncertainties = uncertainties;
        this.errors = errors;
        this.asked = asked;
        this.whyAbsent = whyAbsent;
    }

    /** Runs the seeds from 1 to {@code cases}; absent numbers are counted apart. */
    static Coverage of(String what, int cases, LongFunction<Case> run) {
        double[] ratios = new double[cases];
        double[] uncertainties = new double[cases];
        double[] errors = new double[cases];
        int n = 0;
        String why = "";
        for (long seed = 1; seed <= cases; seed++) {
            Case one = run.apply(seed);
            if (one.measured().isPresent()) {
                errors[n] = one.measured().get() - one.truth();
                uncertainties[n] = one.measured().doubt();
                ratios[n] = Math.abs(errors[n]) / uncertainties[n];
                n++;
            } else {
                why = one.measured().absentBecause().key();
            }
        }
        return new Coverage(
                what,
                sorted(ratios, n),
                sorted(uncertainties, n),
                Arrays.copyOf(errors, n),
                cases,
                why);
    }

    private static double[] sorted(double[] values, int n) {
        double[] copy = Arrays.copyOf(values, n);
        Arrays.sort(copy);
        return copy;
    }

    int present() {
        return ratios.length;
    }

    /** Share of the cases with the truth inside, percent. */
    double percent() {
        int inside = 0;
        for (double ratio : ratios) {
            inside += ratio <= 1 ? 1 : 0;
        }
        return 100.0 * inside / ratios.length;
    }

    /** What was said over what would have been needed to hold 95 %. */
    double width() {
        return ratios.length == 0 ? Double.NaN : 1 / ratios[(int) (0.95 * ratios.length)];
    }

    double medianUncertainty() {
        return uncertainties.length == 0 ? Double.NaN : uncertainties[uncertainties.length / 2];
    }

    private double bias() {
        return Arrays.stream(errors).average().orElse(0);
    }

    @Override
    public String toString() {
        return String.format(
                "%-42s %5d of %5d  inside %5.1f %%  width %4.2f  median u95 %8.4f  bias %8.4f %s",
                what, present(), asked, percent(), width(), medianUncertainty(), bias(), whyAbsent);
    }
}
