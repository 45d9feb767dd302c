package leat.measure.fit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import leat.Gear;
import leat.measure.Absence;
import leat.measure.Curve;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Against {@code references/second_order.csv}: overshoot exp(-pi z / sqrt(1 - z^2)), peak time pi /
 * wd, and 10-90 % and 2 % settling found on the analytic step response; its settling counts from
 * the step.
 */
class SecondOrderFitTest {

    private static final int CASES = Gear.cases();
    private static final long SEED = 20_260_106;

    @ParameterizedTest
    @CsvFileSource(resources = "/references/second_order.csv", numLinesToSkip = 1)
    void the_shape_has_the_reference_values(
            double damping, double overshoot, String peak, double duration, double settling) {
        SecondOrderShape shape = new SecondOrderShape(unrounded(damping));

        assertThat(100 * shape.overshoot()).isCloseTo(overshoot, within(1e-4));
        assertThat(shape.duration()).isCloseTo(duration, within(1e-5));
        assertThat(shape.settled()).isCloseTo(settling, within(1e-4));
    }

    @ParameterizedTest
    @CsvSource({"0.1, 3.15742", "0.5, 3.62760", "0.9, 7.20731"})
    void the_peak_comes_at_the_reference_time(double damping, double peak) {
        SecondOrderShape shape = new SecondOrderShape(damping);

        assertThat(shape.peak()).isCloseTo(peak, within(1e-5));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.7, 0.9999, 0.999999999, 1, 1.000000001, 1.0001, 1.5, 40})
    void slopes_are_the_derivatives_on_both_sides_of_critical_damping(double damping) {
        SecondOrderRise rise = new SecondOrderRise();
        double[] point = {80, 3, damping, 1, 2};
        double[] slopes = new double[5];

        rise.at(2.3, point, slopes);

        assertThat(slopes).containsExactly(differences(rise, 2.3, point), within(1e-5));
    }

    static List<Arguments> rises() {
        return Gear.everyNth(
                2,
                List.of(
                        Arguments.of(0.2, 0.8, 5, 0.3),
                        Arguments.of(0.2, 0.8, 20, 0.3),
                        Arguments.of(0.2, 0.8, 20, 1.2),
                        Arguments.of(0.2, 0.8, 5, 1.2),
                        Arguments.of(0.8, 1.6, 20, 0.3)));
    }

    @ParameterizedTest
    @MethodSource("rises")
    void ninety_five_percent_intervals_hold_the_truth_in_ninety_five_of_a_hundred(
            double leastDamping, double mostDamping, double rateHz, double noisePsi) {
        FitCoverage coverage = coverage(leastDamping, mostDamping, rateHz, noisePsi);

        assertThat(coverage.shares())
                .describedAs("seed %d", SEED)
                .allSatisfy((name, share) -> assertThat(share).isGreaterThan(0.92 - Gear.slack()));
        assertThat(coverage.shares().get("damping")).isLessThan(Gear.most());
        assertThat(coverage.shares().get("amplitude")).isLessThan(Gear.most());
        assertThat(coverage.shares().get("duration")).isLessThan(Gear.most());
        assertThat(coverage.refusedShare()).isLessThan(0.02);
    }

    @Test
    void settling_counts_from_the_fifty_percent_instant() {
        RiseSamples samples =
                TrueRise.secondOrder(0, 80, 3, 2, 1).sampled(100, 0, new Random(SEED));

        SecondOrderFit fit = SecondOrderFit.withBase(samples).get();

        assertThat(fit.settlingSeconds().get().value())
                .isCloseTo((5.833922 - 1.678347) / 2, within(0.01));
        assertThat(fit.peakSeconds().absentBecause()).isEqualTo(Absence.OVERSHOOT_UNSURE);
    }

    @Test
    void a_swing_that_may_leave_the_band_once_more_or_not_widens_the_settling() {
        // exp(-2 pi z / sqrt(1 - z^2)) = 2 % at damping 0.5285: the settling jumps there
        RiseSamples near =
                TrueRise.secondOrder(0, 80, 3, 2, 0.5285).sampled(20, 1.2, new Random(SEED));
        RiseSamples away =
                TrueRise.secondOrder(0, 80, 3, 2, 0.6).sampled(20, 1.2, new Random(SEED));

        Estimate jumps = SecondOrderFit.withBase(near).get().settlingSeconds().get();

        assertThat(jumps.halfWidth95())
                .isGreaterThan(
                        4
                                * SecondOrderFit.withBase(away)
                                        .get()
                                        .settlingSeconds()
                                        .get()
                                        .halfWidth95());
    }

    @Test
    void a_swing_faster_than_half_the_sampling_rate_is_not_told_as_another() {
        RiseSamples samples =
                TrueRise.secondOrder(0, 80, 3, 3.7, 0.32).sampled(5, 0.3, new Random(SEED));

        SecondOrderFit fit = SecondOrderFit.withBase(samples).get();

        assertThat(fit.frequencyPerSecond().holds(3.7)).isTrue();
    }

    @Test
    void constant_falling_empty_and_cut_readings_give_a_reason() {
        Random random = new Random(SEED);
        RiseSamples constant = TrueRise.firstOrder(40, 0, 3, 1).sampled(20, 0, random);
        RiseSamples falling = TrueRise.firstOrder(90, -80, 3, 1).sampled(20, 0.3, random);
        RiseSamples empty = TrueRise.samples(new Curve());
        Curve whole = TrueRise.secondOrder(0, 80, 3, 1, 0.5).curve(20, 0.3, random);

        RiseSamples cut = TrueRise.samples(whole).around(0, 4.5);

        assertThat(SecondOrderFit.withBase(constant).absentBecause())
                .isEqualTo(Absence.ROSE_TOO_LITTLE);
        assertThat(SecondOrderFit.withBase(falling).absentBecause())
                .isEqualTo(Absence.ROSE_TOO_LITTLE);
        assertThat(SecondOrderFit.withBase(empty).absentBecause())
                .isEqualTo(Absence.FEWER_THAN_SEVEN);
        assertThat(SecondOrderFit.withBase(cut).isPresent()).isFalse();
    }

    /**
     * The reference row of 0.7071 was computed for the root of a half: its overshoot is exp(-pi).
     */
    private static double unrounded(double damping) {
        return damping == 0.7071 ? Math.sqrt(0.5) : damping;
    }

    private static FitCoverage coverage(
            double leastDamping, double mostDamping, double rateHz, double noisePsi) {
        Random random = new Random(SEED);
        FitCoverage coverage = new FitCoverage();
        for (int i = 0; i < CASES; i++) {
            double damping = leastDamping + (mostDamping - leastDamping) * random.nextDouble();
            double frequency = 1.5 + 2.5 * random.nextDouble();
            double delay = 3 + random.nextDouble();
            TrueRise rise = TrueRise.secondOrder(1, 80, delay, frequency, damping);
            SecondOrderFit.withBase(rise.sampled(rateHz, noisePsi, random))
                    .result()
                    .ifPresentOrElse(
                            fit -> count(coverage, fit, delay, frequency, damping),
                            () -> coverage.refused());
        }
        return coverage;
    }

    private static void count(
            FitCoverage coverage,
            SecondOrderFit fit,
            double delay,
            double frequency,
            double damping) {
        SecondOrderShape truth = new SecondOrderShape(damping);
        coverage.present();
        coverage.add("amplitude", fit.amplitudePsi(), 80);
        coverage.add("damping", fit.dampingRatio(), damping);
        coverage.add("frequency", fit.frequencyPerSecond(), frequency);
        coverage.add("delay", fit.delaySecond(), delay);
        coverage.add("duration", fit.durationSeconds(), truth.duration() / frequency);
        coverage.add("overshoot", fit.overshootPercent(), 100 * truth.overshoot());
        fit.settlingSeconds()
                .result()
                .ifPresent(
                        settling ->
                                coverage.add(
                                        "settling", settling, truth.settlingFrom50() / frequency));
        fit.peakSeconds()
                .result()
                .ifPresent(peak -> coverage.add("peak", peak, truth.peak() / frequency));
    }

    private static double[] differences(SecondOrderRise rise, double x, double[] point) {
        double[] differences = new double[point.length];
        double[] ignored = new double[point.length];
        for (int i = 0; i < point.length; i++) {
            double[] more = point.clone();
            double[] less = point.clone();
            double step = 1e-5 * Math.max(1, Math.abs(point[i]));
            more[i] += step;
            less[i] -= step;
            differences[i] = (rise.at(x, more, ignored) - rise.at(x, less, ignored)) / (2 * step);
        }
        return differences;
    }
}
