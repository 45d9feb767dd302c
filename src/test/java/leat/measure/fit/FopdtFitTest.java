package leat.measure.fit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.Random;
import leat.Gear;
import leat.measure.Curve;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Multiples of the time constant of a first-order rise: 10 to 90 % in ln 9, 90 % in ln 10, computed
 * from the curve.
 */
class FopdtFitTest {

    private static final int CASES = Gear.cases();
    private static final long SEED = 20_260_105;

    @Test
    void a_rise_without_noise_gives_its_own_parameters() {
        RiseSamples samples = exact(20, 0.8);

        FopdtFit fit = FopdtFit.of(samples).get();

        assertThat(fit.timeConstant()).isCloseTo(0.8, within(1e-6));
        assertThat(fit.delay()).isCloseTo(3.21, within(1e-6));
        assertThat(fit.amplitudePsi()).isCloseTo(80, within(1e-6));
        assertThat(fit.durationSeconds().value()).isCloseTo(1.757780, within(2e-6));
        assertThat(fit.reach90Second().value()).isCloseTo(3.21 + 1.842068, within(2e-6));
    }

    @ParameterizedTest
    @CsvSource({
        "1, 0.3", "1, 1.2", "2, 0.3", "2, 1.2", "5, 0.3", "5, 1.2", "10, 0.3", "10, 1.2", "20, 0.3",
        "20, 1.2"
    })
    void ninety_five_percent_intervals_hold_the_truth_in_ninety_five_of_a_hundred(
            double rateHz, double noisePsi) {
        FitCoverage coverage = coverage(rateHz, noisePsi, CASES);

        assertThat(coverage.shares().values())
                .describedAs("seed %d: %s", SEED, coverage.shares())
                .allSatisfy(share -> assertThat(share).isBetween(0.92 - Gear.slack(), Gear.most()));
        assertThat(coverage.refusedShare()).isLessThan(rateHz < 2 ? 0.06 : 0.001);
    }

    /** Rounding errors are bounded: their interval is never left where noise does not add to it. */
    @ParameterizedTest
    @ValueSource(doubles = {1, 2, 5, 10, 20})
    void with_rounding_alone_the_intervals_hold_at_least_as_often(double rateHz) {
        FitCoverage coverage = coverage(rateHz, 0, CASES);

        assertThat(coverage.shares().values())
                .describedAs("seed %d: %s", SEED, coverage.shares())
                .allSatisfy(share -> assertThat(share).isGreaterThan(0.95 - Gear.slack()));
    }

    @Test
    void a_constant_pressure_is_no_rise() {
        RiseSamples samples = TrueRise.firstOrder(40, 0, 3, 1).sampled(20, 0, new Random(SEED));

        Optional<FopdtFit> fit = FopdtFit.of(samples);

        assertThat(fit).isEmpty();
    }

    @Test
    void a_falling_pressure_is_no_rise() {
        RiseSamples samples = TrueRise.firstOrder(90, -80, 3, 1).sampled(20, 0.3, new Random(SEED));

        Optional<FopdtFit> fit = FopdtFit.of(samples);

        assertThat(fit).isEmpty();
    }

    @Test
    void three_readings_are_too_few() {
        RiseSamples samples = TrueRise.firstOrder(0, 80, 3, 1).sampled(0.15, 0, new Random(SEED));

        Optional<FopdtFit> fit = FopdtFit.of(samples);

        assertThat(samples.size()).isEqualTo(3);
        assertThat(fit).isEmpty();
    }

    @Test
    void no_reading_at_all_is_too_few() {
        RiseSamples samples = TrueRise.samples(new Curve());

        Optional<FopdtFit> fit = FopdtFit.of(samples);

        assertThat(fit).isEmpty();
    }

    @Test
    void a_rise_between_two_readings_is_too_fast_to_tell() {
        TrueRise step = new TrueRise(0, 80, 3, t -> 1);
        RiseSamples samples = step.sampled(10, 0.3, new Random(SEED));

        Optional<FopdtFit> fit = FopdtFit.of(samples);

        assertThat(fit).isEmpty();
    }

    @Test
    void a_rise_cut_off_in_the_middle_is_not_told() {
        Curve curve = TrueRise.firstOrder(0, 80, 3, 2).curve(20, 0.3, new Random(SEED));
        RiseSamples samples = TrueRise.samples(curve).around(0, 5);

        Optional<FopdtFit> fit = FopdtFit.of(samples);

        assertThat(fit).isEmpty();
    }

    @Test
    void a_gap_inside_the_rise_is_said() {
        Curve curve = TrueRise.firstOrder(0, 80, 3, 1).curve(20, 0.3, new Random(SEED));
        RiseSamples samples = TrueRise.samples(without(curve, 3_500_000, 4_500_000));

        Optional<FopdtFit> fit = FopdtFit.of(samples);

        assertThat(fit).isEmpty();
    }

    @Test
    void single_wild_readings_do_not_move_the_fit() {
        Curve curve = TrueRise.firstOrder(0, 80, 3, 1).curve(20, 0.3, new Random(SEED));
        RiseSamples samples = TrueRise.samples(withWildReadings(curve));

        FopdtFit fit = FopdtFit.of(samples).get();

        assertThat(samples.size()).isEqualTo(curve.size() - curve.size() / 37);
        assertThat(fit.durationSeconds().holds(2.197224577)).isTrue();
        assertThat(fit.durationSeconds().halfWidth95()).isLessThan(0.022);
        assertThat(fit.residualSdPsi()).isCloseTo(0.3, within(0.03));
    }

    @Test
    void the_same_readings_give_the_same_bits() {
        RiseSamples samples = TrueRise.firstOrder(0, 80, 3, 1).sampled(20, 1.2, new Random(SEED));

        FopdtFit again = FopdtFit.of(samples).get();

        assertThat(FopdtFit.of(samples).get().reach90Second()).isEqualTo(again.reach90Second());
    }

    private static FitCoverage coverage(double rateHz, double noisePsi, int cases) {
        Random random = new Random(SEED);
        FitCoverage coverage = new FitCoverage();
        for (int i = 0; i < cases; i++) {
            double tau = 0.4 + 1.2 * random.nextDouble();
            double delay = 3 + random.nextDouble();
            double base = 2 * random.nextDouble();
            TrueRise rise = TrueRise.firstOrder(base, 80, delay, tau);
            FopdtFit.of(rise.sampled(rateHz, noisePsi, random))
                    .ifPresentOrElse(
                            fit -> count(coverage, fit, rise, tau), () -> coverage.refused());
        }
        return coverage;
    }

    private static void count(FitCoverage coverage, FopdtFit fit, TrueRise rise, double tau) {
        coverage.present();
        coverage.add("duration", fit.durationSeconds(), tau * 2.197224577);
        coverage.add("90 %", fit.reach90Second(), rise.delaySecond() + tau * 2.302585093);
    }

    private static RiseSamples exact(double rateHz, double tau) {
        TrueRise rise = TrueRise.firstOrder(1.5, 80, 3.21, tau);
        Curve curve = new Curve();
        for (int i = 0; i < rateHz * TrueRise.TOTAL_SECONDS; i++) {
            curve.add(Math.round(i / rateHz * 1e6), rise.psi(i / rateHz));
        }
        return TrueRise.samples(curve);
    }

    private static Curve without(Curve curve, long fromMicros, long toMicros) {
        Curve rest = new Curve();
        for (int i = 0; i < curve.size(); i++) {
            if (curve.at(i) < fromMicros || curve.at(i) > toMicros) {
                rest.add(curve.at(i), curve.psi(i));
            }
        }
        return rest;
    }

    private static Curve withWildReadings(Curve curve) {
        Curve wild = new Curve();
        for (int i = 0; i < curve.size(); i++) {
            wild.add(curve.at(i), i % 37 == 36 ? 195 : curve.psi(i));
        }
        return wild;
    }
}
