package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RippleTest {

    @ParameterizedTest
    @ValueSource(doubles = {0.6, 0.9, 1.4})
    void strokes_are_found_under_irregular_sampling(double hertz) {
        MeasuredClimb climb =
                MeasuredClimb.of(
                        new AnalyticClimb(1)
                                .irregularly()
                                .firstOrder(0.3)
                                .strokes(hertz, 3, 4, 0)
                                .lasting(13));

        Ripple ripple = Ripple.of(climb.steady(), climb.noise());

        Figure frequency = ripple.frequencyHz();
        assertThat(frequency.get()).isCloseTo(hertz, within(2 * frequency.doubt()));
        assertThat(frequency.doubt()).isLessThan(0.02);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void noise_alone_is_no_stroke(long seed) {
        MeasuredClimb climb = MeasuredClimb.of(new AnalyticClimb(seed).noisy(1.2).firstOrder(0.3));

        Ripple ripple = Ripple.of(climb.steady(), climb.noise());

        assertThat(ripple.frequencyHz().absentBecause()).isEqualTo(Absence.NO_STROKES);
    }

    @Test
    void one_second_is_too_short() {
        MeasuredClimb climb = MeasuredClimb.of(AnalyticClimb.drawnStroking(1, 0));
        double end = climb.curve().second(climb.curve().size() - 1);

        Ripple ripple = Ripple.of(climb.curve().part(end - 0.9, end), climb.noise());

        assertThat(ripple.sdPsi().absentBecause()).isEqualTo(Absence.TOO_SHORT_FOR_STROKES);
    }

    @Test
    void two_samples_a_second_are_too_slow() {
        MeasuredClimb climb =
                MeasuredClimb.of(new AnalyticClimb(1).sampled(2).firstOrder(0.5).lasting(20));
        double end = climb.curve().second(climb.curve().size() - 1);

        Ripple ripple = Ripple.of(climb.curve().part(end - 10, end), climb.noise());

        assertThat(ripple.sdPsi().absentBecause()).isEqualTo(Absence.TOO_SLOW_FOR_STROKES);
    }
}
