package leat.bench.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AffinityTest {

    /** Q ~ N, H ~ N2, P ~ N3 (any pump handbook): 60 to 50 Hz, and 1750 to 1450 rpm. */
    @ParameterizedTest
    @CsvSource({"60, 50, 0.83333, 0.69444, 0.57870", "1750, 1450, 0.82857, 0.68653, 0.56884"})
    void flow_pressure_and_power_follow_the_speed(
            double from, double to, double flow, double pressure, double power) {
        Affinity law = new Affinity(to / from);

        assertThat(law.flow(1)).isCloseTo(flow, within(1e-5));
        assertThat(law.pressure(1)).isCloseTo(pressure, within(1e-5));
        assertThat(law.power(1)).isCloseTo(power, within(1e-5));
    }

    /** Worked from the same law. */
    @Test
    void a_tenth_of_the_speed_costs_a_fifth_of_the_boost() {
        assertThat(new Affinity(0.9).pressure(40)).isCloseTo(32.4, within(1e-9));
    }
}
