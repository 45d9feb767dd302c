package leat.bench.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.ToDoubleFunction;
import leat.Gear;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What the gauges show is common practice, no source; the figures of the model are invented. */
class LumpedLineTest {

    private static LineSettings at(double supplyPsi) {
        return new LineSettings(supplyPsi, 100, Build.USUAL.in(House.STILL));
    }

    private final LumpedLine line = new LumpedLine(at(40), 1);

    @ParameterizedTest
    @EnumSource(BoosterKind.class)
    void healthy_line_at_40_psi_settles_near_100_psi_within_two_seconds(BoosterKind kind) {
        LumpedLine either =
                new LumpedLine(
                        new LineSettings(40, 100, Build.USUAL.in(House.STILL).withBooster(kind)),
                        1);

        Visit visit = Visit.to(either);

        assertThat(visit.running().get(220).boostedPsi()).isBetween(96.0, 104.0);
        assertThat(visit.levelPsi()).isBetween(96.0, 103.0);
        assertThat(visit.riseSeconds()).isBetween(1.0, 1.7);
        assertThat(visit.restPsi()).isLessThan(1);
        assertThat(visit.fallSeconds()).isBetween(3.8, 6.0);
    }

    @ParameterizedTest
    @ValueSource(doubles = {30, 45, 60})
    void level_hardly_depends_on_the_supply_but_the_ratio_does(double supplyPsi) {
        Visit visit = Visit.to(new LumpedLine(at(supplyPsi), 1));

        assertThat(visit.levelPsi()).isBetween(98.0, 102.0);
        assertThat(visit.ratio()).isCloseTo(100 / (supplyPsi - 1.9), within(0.1));
    }

    @ParameterizedTest
    @EnumSource(BoosterKind.class)
    void booster_that_does_not_boost_leaves_the_gauge_within_a_few_psi_of_the_inlet(
            BoosterKind kind) {
        LumpedLine either =
                new LumpedLine(
                        new LineSettings(40, 100, Build.USUAL.in(House.STILL).withBooster(kind)),
                        1);
        either.strike(Fault.NOT_TURNING, 1);

        Visit visit = Visit.to(either);

        assertThat(visit.inletPsi() - visit.levelPsi()).isBetween(0.0, 4.0);
        assertThat(visit.running()).allMatch(LineState::running);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.3, 0.6, 0.95})
    void leaking_valve_leaves_its_share_of_the_inlet_pressure_at_rest(double severity) {
        line.strike(Fault.LEAKING_VALVE, severity);

        Visit visit = Visit.to(line);

        assertThat(visit.restPsi()).isCloseTo(40 * severity, within(2.0));
    }

    @Test
    void air_after_service_slows_the_first_rise_and_less_so_the_next_ones() {
        double usual = Visit.to(line).riseSeconds();
        line.strike(Fault.AIR, 1);

        double first = Visit.to(line).riseSeconds();
        double second = Visit.to(line).riseSeconds();
        double third = Visit.to(line).riseSeconds();

        assertThat(first).isGreaterThan(3 * usual);
        assertThat(second).isBetween(1.3 * usual, 0.6 * first);
        assertThat(third).isLessThan(1.25 * usual);
    }

    @Test
    void wrong_setting_moves_the_level_and_hardly_the_rise() {
        double usual = Visit.to(line).riseSeconds();
        line.strike(Fault.SET_TOO_HIGH, 0.4);

        Visit high = Visit.to(line);
        line.repair(Fault.SET_TOO_HIGH);
        line.strike(Fault.SET_TOO_LOW, 0.4);
        Visit low = Visit.to(line);

        assertThat(high.levelPsi()).isCloseTo(120, within(1.5));
        assertThat(low.levelPsi()).isCloseTo(80, within(1.5));
        assertThat(high.riseSeconds()).isCloseTo(usual, within(0.3));
        assertThat(low.riseSeconds()).isCloseTo(usual, within(0.3));
    }

    @Test
    void strokes_dip_the_flow_about_nine_times_in_ten_seconds() {
        line.start();
        line.advance(10);

        long reversals = 0;
        boolean before = false;
        for (int i = 0; i < 2000; i++) {
            line.advance(0.01);
            boolean dipped = drawn(line.state()) < 5;
            reversals += dipped && !before ? 1 : 0;
            before = dipped;
        }

        assertThat(reversals).isBetween(16L, 20L);
    }

    @Test
    void with_the_jet_off_the_intensifier_creeps_and_a_worn_booster_has_its_level_again() {
        line.strike(Fault.WORN_BOOSTER, 0.9);
        line.start();
        line.advance(20);
        assertThat(line.state().cutting()).isTrue();
        double loaded = mean(line, LineState::boostedPsi);
        double drawn = mean(line, LumpedLineTest::drawn);

        line.pause();
        line.advance(3);

        assertThat(line.state().cutting()).isFalse();
        assertThat(mean(line, LumpedLineTest::drawn)).isBetween(0.03 * drawn, 0.12 * drawn);
        assertThat(loaded).isLessThan(80);
        assertThat(mean(line, LineState::boostedPsi)).isGreaterThan(loaded + 15);

        line.cut();
        line.advance(3);

        assertThat(mean(line, LineState::boostedPsi)).isCloseTo(loaded, within(1.0));
    }

    /** Over ten seconds. */
    private static double mean(LumpedLine line, ToDoubleFunction<LineState> figure) {
        double sum = 0;
        for (int i = 0; i < 500; i++) {
            line.advance(0.02);
            sum += figure.applyAsDouble(line.state());
        }
        return sum / 500;
    }

    @Test
    void a_jet_that_is_off_stays_off_through_the_next_start() {
        line.pause();
        line.start();
        line.advance(20);

        assertThat(line.state().cutting()).isFalse();
        assertThat(mean(line, LumpedLineTest::drawn)).isLessThan(1);
    }

    @Test
    void turning_the_jet_on_that_is_on_leaves_no_trace() {
        LumpedLine untouched = new LumpedLine(at(40), 1);
        untouched.start();
        line.start();
        untouched.advance(5.3);
        line.advance(5.3);

        line.cut();
        untouched.advance(5);
        line.advance(5);

        assertThat(line.state()).isEqualTo(untouched.state());
    }

    @ParameterizedTest
    @EnumSource(RegulatorKind.class)
    void a_regulator_on_the_lift_lets_the_level_follow_the_supply_and_one_on_the_gauge_does_not(
            RegulatorKind kind) {
        Build build = Build.USUAL.in(House.STILL).withRegulator(kind);
        LumpedLine either = new LumpedLine(new LineSettings(50, 100, build), 1);
        double level = Visit.to(either).levelPsi();
        either.strike(Fault.WEAK_SUPPLY, 0.2);

        double fall = level - Visit.to(either).levelPsi();

        assertThat(level).isCloseTo(100, within(2.0));
        assertThat(fall).isCloseTo(kind == RegulatorKind.GAUGE ? 0 : 10, within(1.5));
    }

    @Test
    void a_gauge_behind_the_valve_falls_with_the_boosted_one_and_reads_like_the_other_running() {
        Build build = Build.USUAL.in(House.STILL).withInletTap(InletTap.BEHIND_VALVE);
        LumpedLine behind = new LumpedLine(new LineSettings(40, 100, build), 1);

        Visit visit = Visit.to(behind);
        Visit usual = Visit.to(line);

        assertThat(behind.state().inletPsi()).isCloseTo(0, within(0.5));
        assertThat(visit.inletPsi()).isCloseTo(usual.inletPsi(), within(2.0));
        assertThat(visit.levelPsi()).isCloseTo(usual.levelPsi(), within(1e-6));
    }

    private static double drawn(LineState state) {
        return state.inside().orElseThrow().drawnLitresPerMinute();
    }

    /** A start from a piston that was left anywhere must stroke: every run is looked at. */
    @Test
    void every_start_of_many_strokes() {
        for (int run = 0; run < 25; run++) {
            line.start();
            line.advance(12 + 0.37 * run);
            double least = drawn(line.state());
            for (int i = 0; i < 150; i++) {
                line.advance(0.02);
                least = Math.min(least, drawn(line.state()));
            }
            line.stop();
            line.advance(10);

            assertThat(least).as("run " + run).isLessThan(5);
        }
    }

    @Test
    void shut_water_draws_the_inlet_below_0_and_no_further_than_water_boils() {
        line.strike(Fault.WATER_SHUT, 1);

        Visit visit = Visit.to(line);

        assertThat(visit.inletAtRestPsi()).isCloseTo(40, within(0.1));
        assertThat(visit.inletPsi()).isBetween(-14.7, -5.0);
        assertThat(visit.levelPsi()).isBetween(-1.0, 5.0);
        assertThat(visit.running().get(200).inletPsi()).isLessThan(0);
    }

    @Test
    void pressures_do_not_depend_on_how_time_is_cut() {
        LumpedLine coarse = new LumpedLine(at(40), 1);
        line.start();
        coarse.start();

        for (int i = 0; i < 1500; i++) {
            line.advance(0.02);
        }
        coarse.advance(30);

        assertThat(line.state().boostedPsi()).isCloseTo(coarse.state().boostedPsi(), within(1e-6));
        assertThat(line.state().inletPsi()).isCloseTo(coarse.state().inletPsi(), within(1e-6));
    }

    @Test
    void same_seed_and_calls_give_the_same_bits_and_another_seed_does_not() {
        List<LineState> once = played(7);

        assertThat(played(7)).isEqualTo(once);
        assertThat(played(8)).isNotEqualTo(once);
    }

    private static List<LineState> played(long seed) {
        LumpedLine line = new LumpedLine(LineSettings.USUAL, seed);
        line.strike(Fault.COUPLING_SLIPS, 0.7);
        line.strike(Fault.STICKING_REGULATOR, 0.5);
        return Visit.to(line).running();
    }

    @Tag(Gear.THOROUGH)
    @Test
    void main_wanders_and_dips_by_no_more_than_its_build_says() {
        Build inShop = Build.USUAL.in(new House(0.5, 0, 6, 3, 8));
        LumpedLine shop = new LumpedLine(new LineSettings(42, 100, inShop), 3);
        double lowest = 1000;
        double highest = 0;

        for (int second = 0; second < 7200; second++) {
            shop.advance(1);
            lowest = Math.min(lowest, shop.state().inletPsi());
            highest = Math.max(highest, shop.state().inletPsi());
        }

        double usual = 42;
        assertThat(highest).isBetween(usual + 0.2, usual + 0.6);
        assertThat(lowest).isBetween(usual - 4.2, usual - 1);
    }

    @Test
    void fault_that_was_never_struck_is_repaired_without_a_trace() {
        LumpedLine untouched = new LumpedLine(at(40), 1);
        untouched.start();
        line.start();
        untouched.advance(5);
        line.advance(5);

        for (Fault fault : Fault.values()) {
            line.repair(fault);
        }

        assertThat(line.state()).isEqualTo(untouched.state());
    }

    @Test
    void severity_and_steps_are_checked() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> line.strike(Fault.AIR, 1.1))
                .withMessageContaining("0 to 1");
        assertThatIllegalArgumentException().isThrownBy(() -> line.advance(0));
        assertThatIllegalArgumentException().isThrownBy(() -> line.advance(Double.NaN));
    }

    @Test
    void cold_water_slips_less_through_a_worn_pump_than_warm_water() {
        ToDoubleFunction<Double> level =
                celsius -> {
                    Build build = Build.USUAL.in(House.STILL).withWaterCelsius(celsius);
                    LumpedLine worn = new LumpedLine(new LineSettings(40, 100, build), 1);
                    worn.strike(Fault.WORN_BOOSTER, 0.7);
                    return Visit.to(worn).levelPsi();
                };

        assertThat(level.applyAsDouble(5.0)).isGreaterThan(level.applyAsDouble(30.0) + 5);
    }

    @ParameterizedTest
    @EnumSource(value = Fault.class, names = "AIR", mode = EnumSource.Mode.EXCLUDE)
    void fault_that_is_struck_over_and_over_is_the_fault_that_was_struck_once(Fault fault) {
        LumpedLine often = new LumpedLine(at(40), 1);
        line.strike(fault, 0.5);
        line.start();
        often.strike(fault, 0.5);
        often.start();

        for (int i = 0; i < 250; i++) {
            often.strike(fault, 0.5);
            often.advance(0.02);
        }
        line.advance(5);

        assertThat(often.state().boostedPsi()).isCloseTo(line.state().boostedPsi(), within(0.05));
        assertThat(often.state().inletPsi()).isCloseTo(line.state().inletPsi(), within(0.05));
    }
}
