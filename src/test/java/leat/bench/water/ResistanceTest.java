package leat.bench.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ResistanceTest {

    private final Resistance resistance = Resistance.through(1e-4, 2e4, 0.3);

    @Test
    void working_point_is_on_the_curve() {
        assertThat(resistance.loss(1e-4)).isCloseTo(2e4, withinPercentage(1e-9));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-5e4, -1, 1e-6, 1, 3e5})
    void flow_undoes_the_loss(double pressure) {
        double flow = resistance.flow(pressure);

        assertThat(resistance.loss(flow)).isCloseTo(pressure, withinPercentage(1e-6));
    }

    @Test
    void nothing_flows_without_a_difference() {
        assertThat(resistance.flow(0)).isZero();
    }

    @Test
    void two_in_a_row_lose_the_sum() {
        Resistance both = resistance.then(resistance.times(2));

        assertThat(both.loss(1e-4)).isCloseTo(6e4, withinPercentage(1e-9));
    }

    @Test
    void restriction_without_a_linear_part_is_refused() {
        assertThatIllegalArgumentException().isThrownBy(() -> new Resistance(0, 1));
    }
}
