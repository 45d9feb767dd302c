package leat.bench.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LagTest {

    /** Textbook: the 10-90 % rise of a first-order section is ln 9 times its time constant. */
    @ParameterizedTest
    @ValueSource(doubles = {0.04, 0.35, 0.6, 5})
    void rise_of_a_first_order_section_is_ln_9_times_its_time_constant(double timeConstant) {
        Lag lag = new Lag(0);
        double step = timeConstant / 1000;

        double timeTo10 = timeTo(lag, 10, timeConstant, step);
        double from10To90 = timeTo(lag, 90, timeConstant, step);

        assertThat(timeTo10).isCloseTo(-Math.log(0.9) * timeConstant, within(2 * step));
        assertThat(from10To90).isCloseTo(Math.log(9) * timeConstant, within(2 * step));
    }

    private static double timeTo(Lag lag, double level, double timeConstant, double step) {
        int steps = 0;
        while (lag.value() < level) {
            lag.follow(100, timeConstant, step);
            steps++;
        }
        return steps * step;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 100})
    void the_length_of_the_step_does_not_matter(int steps) {
        Lag lag = new Lag(20);

        for (int i = 0; i < steps; i++) {
            lag.follow(100, 0.5, 1.0 / steps);
        }

        assertThat(lag.value()).isCloseTo(100 - 80 * Math.exp(-2), within(1e-9));
    }
}
