package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import leat.measure.Figure;
import leat.measure.RestSpell;
import leat.measure.absence.Absence;
import org.junit.jupiter.api.Test;

/** Common practice, no source: with the water shut only the gauge before the valve shows it. */
class RuledOutTest {

    private static final Map<Cause, Double> EVEN =
            Map.of(Cause.SWAPPED, 0.5, Cause.VALVE_LEAKS, 0.5);

    private static Observation stop(double inletPsi, double boostedPsi) {
        Figure unseen = Figure.absent(Absence.NOT_LOOKED_AT);
        return Observation.at(0)
                .with(
                        new RestSpell(
                                1, 2, Figure.of(boostedPsi), Figure.of(inletPsi), unseen, true));
    }

    @Test
    void gauges_of_which_the_inlet_reads_the_supply_at_rest_are_not_changed_over() {
        Map<Cause, Double> left = RuledOut.from(EVEN, List.of(stop(41, 24)));

        assertThat(left.get(Cause.SWAPPED)).isLessThan(0.05);
        assertThat(left.get(Cause.SWAPPED) + left.get(Cause.VALVE_LEAKS))
                .isEqualTo(1, within(1e-9));
    }

    @Test
    void gauges_that_read_the_other_way_round_may_be() {
        assertThat(RuledOut.from(EVEN, List.of(stop(0, 41)))).isEqualTo(EVEN);
    }

    @Test
    void a_line_that_stands_at_the_inlets_pressure_rules_nothing_out() {
        assertThat(RuledOut.from(EVEN, List.of(stop(41, 38)))).isEqualTo(EVEN);
    }
}
