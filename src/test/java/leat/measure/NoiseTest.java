package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NoiseTest {

    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.3, 1.2})
    void a_climb_and_strokes_do_not_pass_for_noise(double noisePsi) {
        Noise noise =
                Noise.of(
                                new AnalyticClimb(1)
                                        .noisy(noisePsi)
                                        .sampled(50)
                                        .strokes(1, 3, 4, 5)
                                        .stretch())
                        .orElseThrow();

        assertThat(noise.sdPsi()).isCloseTo(noisePsi, within(0.15 * noisePsi));
    }

    @Test
    void the_step_of_a_12_bit_converter_is_found() {
        Noise noise = Noise.of(new AnalyticClimb(1).noisy(0.3).stretch()).orElseThrow();

        assertThat(noise.stepPsi()).isCloseTo(AnalyticClimb.TWELVE_BITS_PSI, within(1e-9));
    }

    @Test
    void readings_that_are_not_rounded_have_no_step() {
        Noise noise = Noise.of(new AnalyticClimb(1).noisy(0.3).rounded(0).stretch()).orElseThrow();

        assertThat(noise.stepPsi()).isZero();
    }

    @Test
    void too_few_readings_have_no_noise() {
        assertThat(Noise.of(new AnalyticClimb(1).stretch().part(0, 0.4))).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 5, 10, 30})
    void mean_of_neighbours_after_a_median_of_three_is_as_noisy_as_said(int readings) {
        double simulated = sdOfMeans(readings, 20_000, new Random(readings));

        assertThat(new Noise(1, 0, 0.05, 100).ofMeanOnLevel(readings))
                .isCloseTo(simulated, within(0.03 * simulated));
    }

    @Test
    void rounding_counts_in_full_without_noise_and_hardly_with_it() {
        Noise still = new Noise(0, 0.06, 0.05, 100);
        Noise noisy = new Noise(0.06, 0.06, 0.05, 100);

        assertThat(still.ofMeanOnLevel(10_000)).isCloseTo(0.06 / Math.sqrt(12), within(1e-9));
        assertThat(noisy.ofMeanOnLevel(10_000)).isLessThan(0.001);
    }

    private static double sdOfMeans(int readings, int runs, Random random) {
        double squares = 0;
        for (int run = 0; run < runs; run++) {
            Curve curve = new Curve();
            for (int i = 0; i < readings + 2; i++) {
                curve.add(i, random.nextGaussian());
            }
            double mean = Stretch.of(curve, 0, readings + 2, 0).mean(1, readings + 1);
            squares += mean * mean;
        }
        return Math.sqrt(squares / runs);
    }
}
