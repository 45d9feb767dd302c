package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import leat.Gear;
import leat.bench.line.Fault;
import leat.measure.RestSpell;
import leat.measure.absence.Absence;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What a stop is, and how the pressure falls after each. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class StopsTest {

    private final Tapes tapes = new Tapes();

    /** How quickly a sound line of the bench empties. */
    private static final double FALLS_SECONDS = 2.5;

    static List<Double> severities() {
        return Gear.everyNth(2, List.of(0.95, 0.85, 1.0));
    }

    @ParameterizedTest
    @MethodSource("severities")
    void a_coupling_that_slips_makes_one_run_of_one_run(double severity) {
        Plays play = Plays.usual(31).strike(0, Fault.COUPLING_SLIPS, severity).run(10, 70);

        Told told = play.feed(100).from(tapes).told();

        assertThat(told.phases)
                .extracting(PhaseChange::to)
                .containsExactly(
                        Phase.REST, Phase.RISE, Phase.STEADY, Phase.FALL, Phase.REST, Phase.BLIND);
        assertThat(told.startups).hasSize(1);
        assertThat(told.raised()).containsExactly("ratio WARNING", "level-low WARNING");
    }

    @Test
    void a_stop_and_a_start_three_seconds_later_are_two_runs() {
        Told told = Plays.usual(3).run(10, 50).run(53, 80).feed(90).told();

        assertThat(told.startups).hasSize(2);
    }

    @Test
    void one_that_grips_no_more_has_stopped_for_whoever_sees_the_pressures_alone() {
        Line line = Line.withSeed(2).at(0).hold(9).towards(100, 0.6, 30).towards(41, 0.3, 40);

        assertThat(Told.by(line).phases)
                .extracting(PhaseChange::to)
                .containsExactly(Phase.REST, Phase.RISE, Phase.STEADY, Phase.FALL, Phase.REST);
    }

    @Test
    void an_inlet_behind_the_valve_falls_at_each_stop_and_is_not_starved() {
        Line line = Line.withSeed(3).inlet(0).at(0).hold(9).inlet(40).towards(100, 0.6, 30);
        line.inlet(0).towards(0, 9, 60);

        Told told = Told.by(line);

        assertThat(told.raised()).isEmpty();
        assertThat(told.phases)
                .extracting(PhaseChange::to)
                .containsExactly(Phase.REST, Phase.RISE, Phase.STEADY, Phase.FALL, Phase.REST);
    }

    @Test
    void there_a_vacuum_still_tells_of_water_that_is_shut() {
        Plays play = Plays.usual(5).run(10, 70).strike(40, Fault.WATER_SHUT, 1);

        Told told = play.feed(100).inletBehindValve().told();

        assertThat(told.raised()).containsExactly("inlet CRITICAL");
    }

    @Test
    void a_slip_and_a_stop_are_told_apart_there_too() {
        Plays slips = Plays.usual(31).strike(0, Fault.COUPLING_SLIPS, 1).run(10, 70);

        Told told = slips.feed(100).from(tapes).inletBehindValve().told();

        assertThat(told.startups).hasSize(1);
        assertThat(told.rests).hasSize(1);
    }

    @ParameterizedTest
    @EnumSource(
            value = Wiring.class,
            names = {"PRESSURES", "RUNNING"})
    void every_stop_has_its_fall_however_short_the_run_or_the_rest(Wiring wiring) {
        Plays play = Plays.usual(5).run(10, 12).run(50, 53).run(100, 140).run(155, 180);
        play.run(188, 210);

        Told told = play.feed(222).from(tapes).wiring(wiring).told();

        assertThat(told.rests)
                .hasSize(5)
                .allSatisfy(
                        rest ->
                                assertThat(rest.fallSeconds().get())
                                        .isCloseTo(FALLS_SECONDS, within(0.4)));
        assertThat(told.rests)
                .extracting(rest -> rest.boostedPsi().absence())
                .satisfies(why -> assertThat(why.get(0)).isEmpty())
                .satisfies(why -> assertThat(why.get(3)).contains(Absence.NEXT_START_CAME))
                .satisfies(why -> assertThat(why.get(4)).contains(Absence.NOT_BOTH_GAUGES));
    }

    @ParameterizedTest
    @EnumSource(
            value = Wiring.class,
            names = {"PRESSURES", "RUNNING"})
    void air_holds_the_pressure_up_and_the_fall_says_by_how_much(Wiring wiring) {
        Plays play = Plays.usual(31).strike(0, Fault.AIR, 1).run(10, 26);

        Told told = play.feed(50).from(tapes).wiring(wiring).told();

        RestSpell rest = told.rests.get(told.rests.size() - 1);
        assertThat(rest.fallSeconds().get()).isGreaterThan(1.3 * FALLS_SECONDS);
    }

    @Test
    void a_start_that_comes_before_the_pressure_has_fallen_is_why_there_is_no_fall() {
        Told told = Plays.usual(5).run(10, 50).run(51, 80).feed(81).wiring(Wiring.RUNNING).told();

        assertThat(told.rests.get(0).fallSeconds().absentBecause())
                .isEqualTo(Absence.NEXT_START_CAME);
    }
}
