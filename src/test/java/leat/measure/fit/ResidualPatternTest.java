package leat.measure.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import leat.measure.Curve;
import leat.measure.absence.Absence;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ResidualPatternTest {

    private static final long SEED = 20_260_107;

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.3, 1.2})
    void a_first_order_rise_leaves_noise(double noisePsi) {
        RiseSamples samples =
                TrueRise.firstOrder(0, 80, 3, 0.8).sampled(20, noisePsi, new Random(SEED));

        RiseShape shape = RiseShape.of(samples);

        assertThat(shape.leftOver().get()).isEqualTo(ResidualPattern.NOISE);
        assertThat(ResidualPattern.of(shape.first().get())).isEqualTo(ResidualPattern.NOISE);
    }

    @Test
    void a_ringing_rise_leaves_waves_of_the_first_order_and_noise_of_the_second() {
        RiseSamples samples =
                TrueRise.secondOrder(0, 80, 3, 3, 0.15).sampled(20, 0.3, new Random(SEED));

        RiseShape shape = RiseShape.of(samples);

        assertThat(ResidualPattern.of(FopdtFit.withBase(samples).get()))
                .isEqualTo(ResidualPattern.WAVES);
        assertThat(shape.secondOrder()).isTrue();
        assertThat(shape.leftOver().get()).isEqualTo(ResidualPattern.NOISE);
    }

    @Test
    void strokes_leave_waves() {
        TrueRise rise =
                new TrueRise(
                        0,
                        80,
                        3,
                        t -> 1 - Math.exp(-t / 0.8) + (t > 4 ? 0.04 * Math.sin(5.6 * t) : 0));
        RiseSamples samples = rise.sampled(20, 0.3, new Random(SEED));

        RiseShape shape = RiseShape.of(samples);

        assertThat(shape.leftOver().get()).isEqualTo(ResidualPattern.WAVES);
    }

    /** Their size is told from the noise of single readings, which does not make them smaller. */
    @Test
    void strokes_a_little_above_twice_the_noise_leave_waves() {
        TrueRise rise =
                new TrueRise(0, 80, 3, t -> 1 - Math.exp(-t / 0.8) + 0.0095 * Math.sin(5.6 * t));
        RiseSamples samples = rise.sampled(20, 0.3, new Random(SEED));

        FopdtFit fit = FopdtFit.withBase(samples).get();

        assertThat(ResidualPattern.of(fit)).isEqualTo(ResidualPattern.WAVES);
    }

    @Test
    void a_fill_and_then_a_boost_leave_a_step() {
        TrueRise rise =
                new TrueRise(
                        0,
                        80,
                        3,
                        t ->
                                0.45 * (1 - Math.exp(-t / 0.6))
                                        + (t < 2.5 ? 0 : 0.55 * (1 - Math.exp(-(t - 2.5) / 0.7))));
        RiseSamples samples = rise.sampled(20, 0.3, new Random(SEED));

        FopdtFit fit = FopdtFit.withBase(samples).get();

        assertThat(ResidualPattern.of(fit)).isEqualTo(ResidualPattern.STEP);
    }

    @Test
    void a_level_that_creeps_leaves_a_bend() {
        TrueRise rise = new TrueRise(0, 80, 3, t -> 1 - Math.exp(-t / 0.8) + 0.01 * t);
        RiseSamples samples = rise.sampled(20, 0.3, new Random(SEED));

        FopdtFit fit = FopdtFit.withBase(samples).get();

        assertThat(ResidualPattern.of(fit)).isEqualTo(ResidualPattern.BEND);
    }

    @Test
    void a_dozen_readings_are_too_few_to_say() {
        Curve curve = TrueRise.firstOrder(0, 80, 3, 1.5).curve(1, 0.3, new Random(SEED));

        FopdtFit fit = FopdtFit.withBase(TrueRise.samples(curve).around(0, 12)).get();

        assertThat(ResidualPattern.of(fit)).isEqualTo(ResidualPattern.TOO_FEW);
    }

    @Test
    void a_slow_poll_gets_its_duration_from_the_fit() {
        RiseSamples samples =
                TrueRise.firstOrder(0, 80, 3.3, 0.8).sampled(1, 0.3, new Random(SEED));

        SlowRise slow = FopdtFit.withBase(samples).then(SlowRise::of).get();

        assertThat(slow.durationSeconds().holds(1.757780)).isTrue();
        assertThat(slow.durationSeconds().halfWidth95()).isLessThan(0.2);
        assertThat(slow.reach90Second().holds(3.3 + 1.842068)).isTrue();
    }

    @Test
    void a_fast_poll_is_read_off_the_curve() {
        RiseSamples samples = TrueRise.firstOrder(0, 80, 3, 0.8).sampled(20, 0, new Random(SEED));

        Attempt<SlowRise> slow = FopdtFit.withBase(samples).then(SlowRise::of);

        assertThat(slow.absentBecause()).isEqualTo(Absence.READ_OFF_THE_CURVE);
    }

    @Test
    void a_slow_poll_of_two_climbs_is_not_told_a_duration() {
        TrueRise rise = new TrueRise(0, 80, 3, t -> t < 3 ? 0.45 : 1);
        RiseSamples samples = rise.sampled(2, 0.3, new Random(SEED));

        Attempt<SlowRise> slow = FopdtFit.withBase(samples).then(SlowRise::of);

        assertThat(slow.isPresent()).isFalse();
    }
}
