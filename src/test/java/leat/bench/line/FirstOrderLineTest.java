package leat.bench.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the two gauges show is common practice, no source; the figures of the model are invented.
 */
class FirstOrderLineTest {

    private static final double STEP = 0.01;

    private final FirstOrderLine line = new FirstOrderLine(LineSettings.USUAL, 1);

    private List<LineState> play(double seconds) {
        List<LineState> states = new ArrayList<>();
        for (int i = 0; i < Math.round(seconds / STEP); i++) {
            line.advance(STEP);
            states.add(line.state());
        }
        return states;
    }

    private static double mean(List<LineState> states, ToDoubleFunction<LineState> pressure) {
        return states.stream().mapToDouble(pressure).average().orElseThrow();
    }

    /** From 10 to 90 psi, which is 10-90 % of a healthy level. */
    private static double riseSeconds(List<LineState> start) {
        return (firstAbove(start, 90) - firstAbove(start, 10)) * STEP;
    }

    private static int firstAbove(List<LineState> states, double psi) {
        int i = 0;
        while (states.get(i).boostedPsi() <= psi) {
            i++;
        }
        return i;
    }

    @Test
    void healthy_booster_is_near_100_psi_within_three_seconds_of_the_start() {
        line.start();

        List<LineState> start = play(20);

        assertThat(start.get(300).boostedPsi()).isBetween(95.0, 103.0);
        assertThat(riseSeconds(start)).isBetween(1.1, 1.6);
        List<LineState> steady = start.subList(1500, 2000);
        assertThat(mean(steady, LineState::boostedPsi)).isBetween(97.0, 103.0);
        assertThat(mean(steady, LineState::inletPsi)).isBetween(38.0, 41.0);
    }

    @Test
    void filling_pulls_the_inlet_down_for_a_moment_only() {
        line.start();

        List<LineState> start = play(6);

        double lowest = start.stream().mapToDouble(LineState::inletPsi).min().orElseThrow();
        long pulled = start.stream().filter(state -> state.inletPsi() < 37).count();
        assertThat(lowest).isBetween(20.0, 34.0);
        assertThat(pulled * STEP).isBetween(0.5, 2.0);
    }

    @Test
    void strokes_ripple_the_level_but_not_before_they_begin() {
        line.start();
        play(2.0);

        List<LineState> strokes = play(20);

        DoubleSummaryStatistics level =
                strokes.stream().skip(500).mapToDouble(LineState::boostedPsi).summaryStatistics();
        assertThat(level.getMax() - level.getMin()).isBetween(3.0, 8.0);
    }

    @Test
    void booster_that_does_not_turn_leaves_the_gauge_at_inlet_pressure() {
        line.strike(Fault.NOT_TURNING, 1);
        line.start();
        play(15);

        List<LineState> steady = play(15);

        double ratio = mean(steady, LineState::boostedPsi) / mean(steady, LineState::inletPsi);
        assertThat(ratio).isBetween(0.95, 1.0);
        assertThat(steady).allMatch(LineState::running);
    }

    @Test
    void worn_booster_holds_more_before_the_strokes_than_under_them() {
        line.strike(Fault.WORN_BOOSTER, 0.72);
        line.start();

        List<LineState> start = play(40);

        double unloaded = mean(start.subList(600, 750), LineState::boostedPsi);
        double loaded = mean(start.subList(1500, 4000), LineState::boostedPsi);
        assertThat(loaded).isBetween(66.0, 76.0);
        assertThat(unloaded).isGreaterThan(loaded + 5);
    }

    @Test
    void line_falls_to_zero_after_the_stop_and_to_a_quarter_in_about_five_seconds() {
        line.start();
        play(20);
        line.stop();

        List<LineState> fall = play(12);

        int quarter = 0;
        while (fall.get(quarter).boostedPsi() > 25) {
            quarter++;
        }
        assertThat(quarter * STEP).isBetween(3.8, 6.0);
        assertThat(fall.get(fall.size() - 1).boostedPsi()).isLessThan(0.5);
        assertThat(fall.get(fall.size() - 1).inletPsi()).isCloseTo(42, within(2.0));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.3, 0.6, 0.95})
    void leaking_valve_holds_a_share_of_the_inlet_at_rest(double share) {
        line.start();
        play(20);
        line.stop();
        line.strike(Fault.LEAKING_VALVE, share);
        play(15);

        List<LineState> rest = play(20);

        double inlet = mean(rest, LineState::inletPsi);
        assertThat(mean(rest, LineState::boostedPsi)).isCloseTo(share * inlet, within(1.5));
    }

    @Test
    void closing_the_hand_valve_shows_that_a_rest_pressure_came_through_the_valve() {
        line.strike(Fault.LEAKING_VALVE, 0.6);
        play(20);
        line.strike(Fault.WATER_SHUT, 1);

        List<LineState> shut = play(20);

        assertThat(shut.get(0).boostedPsi()).isGreaterThan(20);
        assertThat(shut.get(shut.size() - 1).boostedPsi()).isLessThan(2);
    }

    @Test
    void shut_water_reads_full_pressure_until_the_start_and_nothing_a_second_later() {
        line.strike(Fault.WATER_SHUT, 1);
        double trapped = play(10).get(999).inletPsi();
        line.start();

        List<LineState> start = play(10);

        assertThat(trapped).isCloseTo(42, within(2.0));
        assertThat(start.subList(100, 1000)).allMatch(state -> state.inletPsi() < 0);
        assertThat(start.subList(150, 1000)).allMatch(state -> state.boostedPsi() < 3);
    }

    @Test
    void weak_supply_lowers_the_inlet_and_flatters_the_ratio() {
        line.start();
        play(15);
        List<LineState> before = play(10);
        line.strike(Fault.WEAK_SUPPLY, 0.5);
        play(10);

        List<LineState> weak = play(10);

        assertThat(mean(weak, LineState::inletPsi)).isBetween(10.0, 20.0);
        assertThat(ratio(weak)).isGreaterThan(2 * ratio(before) * 0.8);
    }

    private static double ratio(List<LineState> states) {
        return mean(states, LineState::boostedPsi) / mean(states, LineState::inletPsi);
    }

    @Test
    void regulator_set_too_high_shows_in_the_level() {
        line.strike(Fault.SET_TOO_HIGH, 0.5);
        line.start();
        play(10);

        List<LineState> steady = play(10);

        assertThat(mean(steady, LineState::boostedPsi)).isBetween(122.0, 127.0);
    }

    @Test
    void air_slows_the_first_rises_and_is_gone_after_some_starts() {
        line.strike(Fault.AIR, 1);
        List<Double> rises = new ArrayList<>();
        int deadSteps = 0;
        for (int start = 0; start < 6; start++) {
            line.start();
            List<LineState> states = play(27);
            rises.add(riseSeconds(states));
            deadSteps = start == 0 ? firstAbove(states, 10) : deadSteps;
            line.stop();
            play(60);
        }

        assertThat(deadSteps * STEP).isGreaterThan(1.5);
        assertThat(rises.get(0)).isGreaterThan(5);
        assertThat(rises).isSortedAccordingTo((a, b) -> Double.compare(b, a));
        assertThat(rises.get(5)).isLessThan(1.7);
    }

    @Test
    void rise_with_air_is_slow_first_and_fast_later() {
        line.strike(Fault.AIR, 1);
        line.start();

        List<LineState> start = play(15);

        int at10 = firstAbove(start, 10);
        int at50 = firstAbove(start, 50);
        int at90 = firstAbove(start, 90);
        assertThat(at50 - at10).isGreaterThan(at90 - at50);
    }

    @Test
    void repair_brings_the_healthy_line_back() {
        line.strike(Fault.NOT_TURNING, 1);
        line.start();
        play(10);
        line.repair(Fault.NOT_TURNING);
        play(5);

        List<LineState> steady = play(5);

        assertThat(mean(steady, LineState::boostedPsi)).isBetween(97.0, 103.0);
    }

    @Test
    void same_seed_gives_the_same_pressures_to_the_last_bit_and_another_does_not() {
        FirstOrderLine twin = new FirstOrderLine(LineSettings.USUAL, 1);
        FirstOrderLine other = new FirstOrderLine(LineSettings.USUAL, 2);
        line.start();
        twin.start();
        other.start();

        for (int i = 0; i < 3000; i++) {
            line.advance(STEP);
            twin.advance(STEP);
            other.advance(STEP);
        }

        assertThat(twin.state()).isEqualTo(line.state());
        assertThat(other.state()).isNotEqualTo(line.state());
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -0.01, 0.05, Double.NaN})
    void step_out_of_range_is_refused(double seconds) {
        assertThatIllegalArgumentException().isThrownBy(() -> line.advance(seconds));
    }
}
