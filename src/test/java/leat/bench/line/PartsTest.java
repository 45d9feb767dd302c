package leat.bench.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import leat.bench.water.Units;
import leat.bench.water.Water;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The parts of a line by themselves. */
class PartsTest {

    private final Chance chance = new Chance(4);

    /** Affinity laws, any pump handbook: half the speed shuts off at a quarter of the pressure. */
    @Test
    void centrifugal_pump_at_half_speed_shuts_off_at_a_quarter_of_the_pressure() {
        CentrifugalPump pump = new CentrifugalPump(Build.USUAL);

        assertThat(pump.flow(1, 84.9 * Units.PSI, 1)).isPositive();
        assertThat(pump.flow(1, 85.1 * Units.PSI, 1)).isZero();
        assertThat(pump.flow(0.5, 21.2 * Units.PSI, 1)).isPositive();
        assertThat(pump.flow(0.5, 21.3 * Units.PSI, 1)).isZero();
    }

    /** Affinity laws: twice the speed moves twice the flow where the pressure is four times. */
    @Test
    void turbulent_part_of_a_centrifugal_curve_scales_as_the_affinity_laws_say() {
        CentrifugalPump pump = new CentrifugalPump(Build.USUAL);

        double half = pump.flow(0.5, 0, 1);
        double full = pump.flow(1, 0, 1);

        assertThat(full / half).isCloseTo(2, within(0.1));
    }

    @Test
    void vane_pump_moves_what_it_sweeps_less_its_slip_and_never_backwards() {
        VanePump pump = new VanePump(Build.USUAL, Water.at(20));
        double swept = Build.USUAL.pumpLitresPerMinute() * Units.LITRE_PER_MINUTE;

        assertThat(pump.flow(1, 0, 1)).isCloseTo(swept, withinPercentage(1e-9));
        assertThat(pump.flow(1, 60 * Units.PSI, 1)).isCloseTo(0.92 * swept, withinPercentage(0.1));
        assertThat(pump.flow(0, 60 * Units.PSI, 1)).isZero();
        assertThat(pump.flow(0, -Units.PSI, 1))
                .isCloseTo(8 * Units.LITRE_PER_MINUTE, withinPercentage(1e-6));
    }

    /** Kloss: the torque at the breakdown slip is the breakdown torque, and none at synchronism. */
    @Test
    void motor_pulls_hardest_at_its_breakdown_slip_and_not_at_all_at_synchronism() {
        assertThat(Motor.torque(0.7)).isCloseTo(2.6, within(1e-9));
        assertThat(Motor.torque(0.69)).isLessThan(2.6);
        assertThat(Motor.torque(0.71)).isLessThan(2.6);
        assertThat(Motor.torque(1)).isZero();
    }

    @Test
    void motor_without_load_is_up_within_half_a_second_and_a_few_percent_slow() {
        double speed = 0;
        for (int i = 0; i < 500; i++) {
            speed += 0.001 * Motor.acceleration(speed, true, 0.5);
        }

        assertThat(speed).isBetween(0.94, 0.98);
    }

    @Test
    void chambers_fill_until_the_water_comes_near_to_boiling() {
        Suction suction = new Suction(Water.at(20));

        assertThat(suction.filled(0)).isEqualTo(1);
        assertThat(suction.filled(-10 * Units.PSI)).isBetween(0.1, 0.9);
        assertThat(suction.filled(-14 * Units.PSI)).isZero();
    }

    @Test
    void warm_water_boils_off_sooner() {
        Suction cold = new Suction(Water.at(10));
        Suction warm = new Suction(Water.at(45));

        double pressure = -10 * Units.PSI;

        assertThat(warm.filled(pressure)).isLessThan(cold.filled(pressure));
    }

    @Test
    void valve_travels_evenly_and_comes_to_its_stop_when_it_says() {
        ShutOffValve valve =
                new ShutOffValve(Build.USUAL, new Openings(Build.USUAL, Water.at(20)).bleed());

        valve.drive(true, 10);

        assertThat(valve.nextEdge(10)).isCloseTo(10.2, within(1e-9));
        assertThat(valve.position(10.1)).isCloseTo(0.5, within(1e-9));
        assertThat(valve.position(11)).isEqualTo(1);
        assertThat(valve.nextEdge(11)).isInfinite();
        assertThat(valve.flow(Units.PSI, 11))
                .isCloseTo(9 * Units.LITRE_PER_MINUTE, withinPercentage(1e-6));
    }

    @Test
    void shut_valve_lets_nothing_through_unless_it_leaks() {
        ShutOffValve valve =
                new ShutOffValve(Build.USUAL, new Openings(Build.USUAL, Water.at(20)).bleed());

        double tight = valve.flow(40 * Units.PSI, 1);
        valve.leak(0.5);

        assertThat(tight).isZero();
        assertThat(valve.flow(40 * Units.PSI, 1)).isPositive();
    }

    @Test
    void coupling_that_slips_ever_more_keeps_its_rhythm() {
        Coupling once = new Coupling(chance);
        Coupling often = new Coupling(chance);

        once.slip(0.9, 5);
        for (int i = 1; i <= 90; i++) {
            often.slip(i / 100.0, 5);
        }

        assertThat(often.nextEdge()).isEqualTo(once.nextEdge());
        assertThat(often.grip(40 * Units.PSI)).isCloseTo(once.grip(40 * Units.PSI), within(1e-12));
    }

    @Test
    void approach_forgets_in_how_many_steps_it_was_sent() {
        Approach once = Approach.standing(1).towards(0.4, 0, 0.5);
        Approach often = Approach.standing(1);
        for (int i = 0; i < 100; i++) {
            often = often.towards(0.4, i * 0.01, 0.5);
        }

        assertThat(often.at(2)).isCloseTo(once.at(2), within(1e-12));
        assertThat(once.at(100)).isEqualTo(0.4);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 14.999, 15, 15.001, 1e7})
    void drift_is_without_jumps_and_within_its_bounds(double seconds) {
        Drift drift = new Drift(chance, Chance.Stream.SUPPLY, 15);

        assertThat(drift.at(seconds)).isBetween(-1.0, 1.0);
        assertThat(drift.at(seconds + 1e-6)).isCloseTo(drift.at(seconds), within(1e-4));
    }

    @Test
    void draws_are_even_and_each_stream_has_its_own() {
        double sum = 0;
        for (int i = 0; i < 10_000; i++) {
            sum += chance.draw(Chance.Stream.BUILD, i);
        }

        assertThat(sum / 10_000).isCloseTo(0.5, within(0.02));
        assertThat(chance.draw(Chance.Stream.BUILD, 1))
                .isNotEqualTo(chance.draw(Chance.Stream.SUPPLY, 1));
    }

    @Test
    void builds_out_of_range_are_refused_with_the_range() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Build.USUAL.withWaterCelsius(80))
                .withMessageContaining("water temperature is 80.0, allowed is 2.0 to 45.0");
    }
}
