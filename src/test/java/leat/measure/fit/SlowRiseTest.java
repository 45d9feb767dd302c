package leat.measure.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import leat.measure.Curve;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class SlowRiseTest {

    private static final long SEED = 20_260_107;

    @Test
    void a_slow_poll_gets_its_duration_from_the_fit() {
        RiseSamples samples =
                TrueRise.firstOrder(0, 80, 3.3, 0.8).sampled(1, 0.3, new Random(SEED));

        SlowRise slow = SlowRise.of(samples).orElseThrow();

        assertThat(slow.durationSeconds().holds(1.757780)).isTrue();
        assertThat(slow.durationSeconds().halfWidth95()).isLessThan(0.2);
        assertThat(slow.reach90Second().holds(3.3 + 1.842068)).isTrue();
    }

    @Test
    void a_fast_poll_is_read_off_the_curve() {
        RiseSamples samples = TrueRise.firstOrder(0, 80, 3, 0.8).sampled(20, 0, new Random(SEED));

        assertThat(SlowRise.of(samples)).isEmpty();
    }

    @Test
    void a_slow_poll_of_two_climbs_is_not_told_a_duration() {
        TrueRise rise = new TrueRise(0, 80, 3, t -> t < 3 ? 0.45 : 1);

        Optional<SlowRise> slow = SlowRise.of(rise.sampled(2, 0.3, new Random(SEED)));

        assertThat(slow).isEmpty();
    }

    /** Each leaves over less than 3 % of its height: only the shape tells. */
    static List<DoubleUnaryOperator> otherShapes() {
        return List.of(
                t -> 1 - Math.exp(-t / 0.8) + 0.02 * Math.sin(0.7 * t),
                t -> 1 - Math.exp(-t / 0.8) + 0.005 * t);
    }

    @ParameterizedTest
    @MethodSource("otherShapes")
    void a_slow_poll_of_swings_or_of_a_creep_is_not_told_a_duration(DoubleUnaryOperator shape) {
        RiseSamples samples = new TrueRise(0, 80, 3, shape).sampled(2, 0.1, new Random(SEED));
        FopdtFit fit = FopdtFit.of(samples).orElseThrow();

        Optional<SlowRise> slow = SlowRise.of(samples);

        assertThat(fit.residualSdPsi()).isLessThan(0.03 * 80);
        assertThat(slow).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.3, 1.2})
    void a_first_order_rise_leaves_noise(double noisePsi) {
        RiseSamples samples =
                TrueRise.firstOrder(0, 80, 3, 0.8).sampled(20, noisePsi, new Random(SEED));

        assertThat(FopdtFit.of(samples).orElseThrow().leavesShape()).isFalse();
    }

    /** Told from the noise of single readings, which does not make them smaller. */
    @Test
    void strokes_a_little_above_twice_the_noise_are_a_shape() {
        TrueRise rise =
                new TrueRise(0, 80, 3, t -> 1 - Math.exp(-t / 0.8) + 0.0095 * Math.sin(5.6 * t));

        FopdtFit fit = FopdtFit.of(rise.sampled(20, 0.3, new Random(SEED))).orElseThrow();

        assertThat(fit.leavesShape()).isTrue();
    }

    @Test
    void a_ringing_rise_leaves_a_shape() {
        double z = 0.15;
        double root = Math.sqrt(1 - z * z);
        TrueRise rise =
                new TrueRise(
                        0,
                        80,
                        3,
                        t -> {
                            double swing = 3 * root * t;
                            return 1
                                    - Math.exp(-3 * z * t)
                                            * (Math.cos(swing) + z / root * Math.sin(swing));
                        });

        FopdtFit fit = FopdtFit.of(rise.sampled(20, 0.3, new Random(SEED))).orElseThrow();

        assertThat(fit.leavesShape()).isTrue();
    }

    @Test
    void of_a_dozen_readings_no_shape_is_told() {
        Curve curve = TrueRise.firstOrder(0, 80, 3, 1.5).curve(1, 0.3, new Random(SEED));

        FopdtFit fit = FopdtFit.of(TrueRise.samples(curve).around(0, 12)).orElseThrow();

        assertThat(fit.leavesShape()).isFalse();
    }
}
