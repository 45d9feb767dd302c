package leat.bench.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * What each fault does to the two gauges beside a sound start of the same line: which way each
 * figure goes, and which stay, is common practice, no source. How far is the model's invention.
 */
class LumpedLineFaultsTest {

    private static final LineSettings SETTINGS =
            new LineSettings(40, 100, Build.USUAL.in(House.STILL));

    private final Visit sound = Visit.to(new LumpedLine(SETTINGS, 1));

    private static Visit with(Fault fault, double severity) {
        return with(fault, severity, BoosterKind.VANE);
    }

    private static Visit with(Fault fault, double severity, BoosterKind kind) {
        Build build = SETTINGS.build().withBooster(kind);
        LumpedLine line = new LumpedLine(new LineSettings(40, 100, build), 1);
        line.strike(fault, severity);
        return Visit.to(line);
    }

    @Test
    void worn_booster_reaches_the_level_unloaded_and_loses_it_when_strokes_begin() {
        Visit worn = with(Fault.WORN_BOOSTER, 0.63);

        assertThat(worn.unloadedPsi()).isCloseTo(sound.unloadedPsi(), within(6.0));
        assertThat(worn.dropPsi()).isGreaterThan(sound.dropPsi() + 10);
        assertThat(worn.ripplePsi()).isGreaterThan(1.4 * sound.ripplePsi());
        assertThat(worn.secondsTo(75)).isGreaterThan(1.15 * sound.secondsTo(75));
        assertThat(worn.sagPsi()).isCloseTo(sound.sagPsi(), within(0.5));
        assertThat(worn.fallSeconds()).isCloseTo(sound.fallSeconds(), within(0.7));
    }

    @Test
    void light_wear_hides_behind_the_regulator_and_shows_in_the_rise_only() {
        Visit worn = with(Fault.WORN_BOOSTER, 0.3);

        assertThat(worn.levelPsi()).isCloseTo(sound.levelPsi(), within(3.0));
        assertThat(worn.riseSeconds()).isGreaterThan(1.08 * sound.riseSeconds());
    }

    @Test
    void worn_centrifugal_booster_loses_level_at_once() {
        Visit worn = with(Fault.WORN_BOOSTER, 0.5, BoosterKind.CENTRIFUGAL);

        assertThat(worn.levelPsi()).isLessThan(85);
        assertThat(worn.unloadedPsi()).isLessThan(100);
    }

    @ParameterizedTest
    @EnumSource(BoosterKind.class)
    void pump_that_stands_leaves_a_ratio_of_one(BoosterKind kind) {
        Visit standing = with(Fault.NOT_TURNING, 1, kind);

        assertThat(standing.ratio()).isBetween(0.9, 1.0);
        assertThat(standing.sagPsi()).isCloseTo(sound.sagPsi(), within(0.5));
        assertThat(standing.restPsi()).isLessThan(1);
    }

    @ParameterizedTest
    @EnumSource(BoosterKind.class)
    void slipping_coupling_makes_the_level_low_and_unsteady(BoosterKind kind) {
        Visit slipping = with(Fault.COUPLING_SLIPS, 1, kind);

        assertThat(slipping.levelPsi()).isLessThan(sound.levelPsi() - 4);
        assertThat(slipping.wanderPsi()).isGreaterThan(sound.wanderPsi() + 2);
        assertThat(slipping.ripplePsi()).isGreaterThan(2 * sound.ripplePsi());
    }

    @Test
    void weak_supply_is_low_at_rest_already_and_flatters_the_ratio() {
        Visit weak = with(Fault.WEAK_SUPPLY, 0.5);

        assertThat(weak.inletAtRestPsi()).isBetween(19.0, 26.0);
        assertThat(weak.ratio()).isGreaterThan(1.8 * sound.ratio());
        assertThat(weak.levelPsi()).isCloseTo(sound.levelPsi(), within(2.0));
    }

    @Test
    void shut_water_lets_the_inlet_fall_within_a_second_and_gives_no_boost() {
        Visit shut = with(Fault.WATER_SHUT, 1);

        assertThat(shut.running().get(150).inletPsi()).isLessThan(1);
        assertThat(shut.levelPsi()).isLessThan(5);
        assertThat(shut.inletAtRestPsi()).isGreaterThan(35);
    }

    @Test
    void leaking_valve_holds_a_rest_pressure_from_which_the_rise_is_shorter() {
        LumpedLine line = new LumpedLine(SETTINGS, 1);
        line.strike(Fault.LEAKING_VALVE, 0.6);
        Visit.to(line);

        Visit leaking = Visit.to(line);

        assertThat(leaking.restPsi()).isBetween(20.0, 28.0);
        assertThat(leaking.riseSeconds()).isLessThan(0.9 * sound.riseSeconds());
        assertThat(leaking.fallSeconds()).isGreaterThan(1.3 * sound.fallSeconds());
        assertThat(leaking.levelPsi()).isCloseTo(sound.levelPsi(), within(1.0));
    }

    @Test
    void slow_valve_delays_the_start_and_nothing_else() {
        Visit slow = with(Fault.SLOW_VALVE, 1);

        assertThat(slow.deadSeconds()).isGreaterThan(2 * sound.deadSeconds());
        assertThat(slow.lowestInletPsi()).isGreaterThan(sound.lowestInletPsi() + 5);
        assertThat(slow.levelPsi()).isCloseTo(sound.levelPsi(), within(1.0));
        assertThat(slow.inletPsi()).isCloseTo(sound.inletPsi(), within(0.5));
    }

    @Test
    void part_open_valve_fills_slowly_and_spares_the_inlet() {
        Visit part = with(Fault.PART_OPEN_VALVE, 1);

        assertThat(part.riseSeconds()).isGreaterThan(1.5 * sound.riseSeconds());
        assertThat(part.deadSeconds()).isGreaterThan(1.5 * sound.deadSeconds());
        assertThat(part.lowestInletPsi()).isGreaterThan(sound.lowestInletPsi() + 10);
        assertThat(part.sagPsi()).isCloseTo(sound.sagPsi(), within(0.5));
    }

    @Test
    void part_open_valve_before_a_centrifugal_booster_looks_like_wear() {
        Visit part = with(Fault.PART_OPEN_VALVE, 1, BoosterKind.CENTRIFUGAL);

        assertThat(part.levelPsi()).isLessThan(85);
        assertThat(part.dropPsi()).isGreaterThan(15);
    }

    @Test
    void clogged_strainer_sags_the_inlet_running_but_not_at_rest() {
        Visit clogged = with(Fault.CLOGGED_STRAINER, 0.5);

        assertThat(clogged.inletAtRestPsi()).isCloseTo(40, within(0.5));
        assertThat(clogged.sagPsi()).isGreaterThan(sound.sagPsi() + 8);
        assertThat(clogged.ratio()).isGreaterThan(1.3 * sound.ratio());
        assertThat(clogged.lowestInletPsi()).isLessThan(sound.lowestInletPsi() - 10);
        assertThat(clogged.fallSeconds()).isCloseTo(sound.fallSeconds(), within(0.5));
    }

    @Test
    void clogged_filters_show_behind_them_only() {
        Visit clogged = with(Fault.CLOGGED_FILTER, 0.6);

        assertThat(clogged.filterLossPsi()).isGreaterThan(sound.filterLossPsi() + 8);
        assertThat(clogged.levelPsi()).isCloseTo(sound.levelPsi(), within(1.0));
        assertThat(clogged.riseSeconds()).isLessThan(1.1 * sound.riseSeconds());
        assertThat(clogged.sagPsi()).isCloseTo(sound.sagPsi(), within(0.3));
    }

    @Test
    void low_setting_is_equally_low_with_and_without_strokes() {
        Visit low = with(Fault.SET_TOO_LOW, 0.5);

        assertThat(low.levelPsi()).isCloseTo(75, within(2.0));
        assertThat(low.dropPsi()).isCloseTo(sound.dropPsi(), within(2.0));
        assertThat(low.ripplePsi()).isCloseTo(sound.ripplePsi(), within(0.2));
        assertThat(low.sagPsi()).isCloseTo(sound.sagPsi(), within(0.3));
    }

    @Test
    void high_setting_is_high_and_steady() {
        Visit high = with(Fault.SET_TOO_HIGH, 0.8);

        assertThat(high.levelPsi()).isCloseTo(140, within(3.0));
        assertThat(high.wanderPsi()).isLessThan(0.3);
        assertThat(high.riseSeconds()).isGreaterThan(sound.riseSeconds());
    }

    @Test
    void sticking_regulator_overshoots_and_wanders_in_slow_waves() {
        Visit sticking = with(Fault.STICKING_REGULATOR, 0.8);

        assertThat(sticking.wanderPsi()).isGreaterThan(sound.wanderPsi() + 1);
        assertThat(sticking.unloadedPsi()).isGreaterThan(sound.unloadedPsi() + 1);
        assertThat(sticking.sagPsi()).isCloseTo(sound.sagPsi(), within(0.5));
    }

    @Test
    void sticking_regulator_stands_elsewhere_at_each_start() {
        LumpedLine line = new LumpedLine(SETTINGS, 1);
        line.strike(Fault.STICKING_REGULATOR, 0.8);

        double first = Visit.to(line).levelPsi();
        double second = Visit.to(line).levelPsi();
        double third = Visit.to(line).levelPsi();

        assertThat(Math.max(Math.abs(first - second), Math.abs(second - third))).isGreaterThan(1);
    }

    @Test
    void air_is_late_slow_and_soft_in_the_fall() {
        Visit air = with(Fault.AIR, 0.8);

        assertThat(air.deadSeconds()).isGreaterThan(2 * sound.deadSeconds());
        assertThat(air.riseSeconds()).isGreaterThan(2 * sound.riseSeconds());
        assertThat(air.fallSeconds()).isGreaterThan(1.2 * sound.fallSeconds());
        assertThat(air.ripplePsi()).isLessThan(sound.ripplePsi());
        assertThat(air.levelPsi()).isCloseTo(sound.levelPsi(), within(1.0));
    }

    @Test
    void external_leak_sags_the_inlet_and_empties_the_line_fast() {
        Visit leak = with(Fault.EXTERNAL_LEAK, 0.6);

        assertThat(leak.sagPsi()).isGreaterThan(sound.sagPsi() + 2.5);
        assertThat(leak.fallSeconds()).isLessThan(0.6 * sound.fallSeconds());
        assertThat(leak.riseSeconds()).isGreaterThan(1.15 * sound.riseSeconds());
    }
}
