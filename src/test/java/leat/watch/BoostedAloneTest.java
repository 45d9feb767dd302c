package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import leat.Gear;
import leat.bench.line.Fault;
import leat.measure.Measurand;
import leat.measure.absence.Absence;
import leat.rule.Limits;
import leat.rule.RunVerdict;
import leat.rule.StartupVerdict.Outcome;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** A machine with one gauge, after the booster: it is judged by what that one shows. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BoostedAloneTest {

    private final Tapes tapes = new Tapes();

    static Wiring[] wirings() {
        return Wiring.tried();
    }

    static LongStream seeds() {
        return Gear.seeds(1, 10);
    }

    private static WatchSettings alone(WatchSettings settings) {
        Set<Channel> wired = new HashSet<>(settings.wired());
        wired.remove(Channel.INLET);
        return new WatchSettings(settings.machine(), wired, settings.limits());
    }

    private static List<Input> withoutInlet(List<Input> inputs) {
        return inputs.stream().filter(input -> !isOfInlet(input)).toList();
    }

    private static boolean isOfInlet(Input input) {
        return input instanceof Reading reading && reading.channel() == Channel.INLET
                || input instanceof SourceLost lost && lost.channel() == Channel.INLET;
    }

    private Told told(Plays play, double seconds, Wiring wiring) {
        BenchFeed feed = play.feed(seconds).from(tapes).wiring(wiring);
        return Told.by(alone(feed.settings()), withoutInlet(feed.inputs()));
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void sound_runs_call_nobody_and_are_measured_as_far_as_one_gauge_can(Wiring wiring) {
        Plays play = Plays.usual(3).run(20, 100).run(140, 200);

        Told told = told(play, 260, wiring);

        assertThat(told.raised()).isEmpty();
        assertThat(told.verdicts)
                .extracting(v -> v.outcome())
                .containsExactly(Outcome.GOOD, Outcome.GOOD);
        assertThat(told.startups)
                .allSatisfy(
                        start -> {
                            assertThat(start.riseSeconds().isPresent()).isTrue();
                            assertThat(start.ratio().absence()).hasValue(Absence.NO_INLET_GAUGE);
                            assertThat(start.figure(Measurand.INLET_SAG).absence())
                                    .hasValue(Absence.NO_INLET_GAUGE);
                        });
        assertThat(told.steadies)
                .isNotEmpty()
                .allSatisfy(
                        spell -> {
                            assertThat(spell.boostedPsi().get()).isBetween(95.0, 105.0);
                            assertThat(spell.ratio().absence()).hasValue(Absence.NO_INLET_GAUGE);
                        });
        assertThat(told.runs)
                .hasSize(2)
                .allSatisfy(
                        run -> {
                            assertThat(run.verdict().mark()).isEqualTo(RunVerdict.Mark.GOOD);
                            assertThat(run.verdict().parts())
                                    .extracting(RunVerdict.Part::aspect)
                                    .doesNotContain(
                                            RunVerdict.Aspect.RATIO, RunVerdict.Aspect.INLET);
                            assertThat(run.run().figure(Measurand.RATIO).absence())
                                    .hasValue(Absence.NO_INLET_GAUGE);
                        });
        assertThat(told.rests)
                .isNotEmpty()
                .allSatisfy(
                        rest -> {
                            assertThat(rest.boostedPsi().get()).isBetween(-1.0, 1.0);
                            assertThat(rest.inletPsi().absence()).hasValue(Absence.NO_INLET_GAUGE);
                        });
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void a_start_has_the_same_rise_with_and_without_an_inlet_gauge(Wiring wiring) {
        Plays play = Plays.usual(3).run(20, 100).run(140, 200);

        List<Measurand> same = List.of(Measurand.RISE, Measurand.TOP, Measurand.BASE);

        List<?> both = figures(play.feed(260).from(tapes).wiring(wiring).told(), same);
        assertThat(figures(told(play, 260, wiring), same)).isEqualTo(both);
    }

    private static List<?> figures(Told told, List<Measurand> wanted) {
        return told.startups.stream().flatMap(start -> wanted.stream().map(start::figure)).toList();
    }

    @Test
    void a_stop_that_ends_before_its_pressure_has_settled_has_no_inlet_either() {
        Line line = Line.withSeed(3).runSignal().at(0).hold(20);
        line.running(true).towards(100, 0.6, 40).running(false).towards(0, 20, 25);
        line.running(true).towards(100, 0.6, 20);

        Told told = Told.by(alone(line.settings()), withoutInlet(line.inputs()));

        assertThat(told.rests)
                .isNotEmpty()
                .allSatisfy(
                        rest ->
                                assertThat(rest.inletPsi().absence())
                                        .hasValue(Absence.NO_INLET_GAUGE));
    }

    @Tag(Gear.THOROUGH)
    @ParameterizedTest
    @MethodSource("wirings")
    void supplies_from_thirty_to_sixty_psi_and_restarts_within_seconds_call_nobody(Wiring wiring) {
        for (int supply = 30; supply <= 60; supply += 10) {
            for (double pause : new double[] {0.5, 1.5, 3, 8}) {
                Plays play = Plays.of(supply, 100, supply).run(10, 50).run(50 + pause, 90);

                Told told = told(play, 140, wiring);

                assertThat(told.raised()).as("%d psi, pause %s s", supply, pause).isEmpty();
            }
        }
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void a_booster_that_does_not_turn_has_not_risen(Wiring wiring) {
        Plays play = Plays.usual(4).strike(0, Fault.NOT_TURNING, 1).run(20, 120);

        Told told = told(play, 150, wiring);

        assertThat(told.raised()).containsExactly("rise CRITICAL");
        assertThat(told.verdicts).extracting(v -> v.outcome()).containsExactly(Outcome.NOT_RISEN);
    }

    @Tag(Gear.THOROUGH)
    @ParameterizedTest
    @MethodSource("wirings")
    void a_short_run_of_a_booster_that_does_not_turn_is_not_called_good(Wiring wiring) {
        Plays play = Plays.usual(4).strike(0, Fault.NOT_TURNING, 1).run(20, 30);

        Told told = told(play, 60, wiring);

        assertThat(told.verdicts).extracting(v -> v.outcome()).doesNotContain(Outcome.GOOD);
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void a_worn_booster_shows_in_its_level(Wiring wiring) {
        Plays play = Plays.of(42, 100, 5).strike(0, Fault.WORN_BOOSTER, 0.9).run(20, 140);

        Told told = told(play, 180, wiring);

        assertThat(told.raised()).containsExactly("level-low WARNING");
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void a_valve_that_leaks_leaves_pressure_at_rest(Wiring wiring) {
        Plays play = Plays.usual(6).strike(50, Fault.LEAKING_VALVE, 1).run(20, 80);

        Told told = told(play, 200, wiring);

        assertThat(told.raised()).containsExactly("rest ADVISORY");
        assertThat(told.alarms.get(0).finding().inletPsi().absence())
                .hasValue(Absence.NO_INLET_GAUGE);
    }

    @Tag(Gear.THOROUGH)
    @ParameterizedTest
    @MethodSource("wirings")
    void a_booster_that_fails_in_mid_run_does_not_go_unsaid(Wiring wiring) {
        Plays play = Plays.usual(4).start(5).strike(50, Fault.NOT_TURNING, 1).stop(160);

        Told told = told(play, 200, wiring);

        assertThat(told.raised())
                .contains(wiring == Wiring.PRESSURES ? "rest ADVISORY" : "level-low WARNING");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_watch_restored_at_any_input_goes_on_as_one_that_never_stopped(long seed) {
        Line line = RandomLine.of(seed, 20);
        WatchSettings settings = alone(line.settings());
        List<Input> inputs = withoutInlet(line.inputs());
        List<leat.watch.Outcome> whole = new ArrayList<>();
        Watch one = new Watch(settings);
        inputs.forEach(input -> one.feed(input, whole::add));

        new Random(seed)
                .ints(Gear.of(4, 20), 0, inputs.size() + 1)
                .forEach(cut -> assertThat(cutAt(cut, settings, inputs)).isEqualTo(whole));
    }

    private static List<leat.watch.Outcome> cutAt(
            int cut, WatchSettings settings, List<Input> inputs) {
        List<leat.watch.Outcome> outcomes = new ArrayList<>();
        Watch first = new Watch(settings);
        inputs.subList(0, cut).forEach(input -> first.feed(input, outcomes::add));
        Watch second = Watch.restore(settings, first.snapshot());
        inputs.subList(cut, inputs.size()).forEach(input -> second.feed(input, outcomes::add));
        return outcomes;
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void readings_of_a_channel_that_the_machine_does_not_have_change_nothing(long seed) {
        Line line = RandomLine.of(seed, 20);
        WatchSettings settings = alone(line.settings());

        Told with = Told.by(settings, line.inputs());
        Told without = Told.by(settings, withoutInlet(line.inputs()));

        assertThat(with.alarms).isEqualTo(without.alarms);
        assertThat(with.phases).isEqualTo(without.phases);
        assertThat(with.startups).isEqualTo(without.startups);
        assertThat(with.steadies).isEqualTo(without.steadies);
        assertThat(with.rests).isEqualTo(without.rests);
    }

    @Test
    void a_machine_without_a_gauge_after_the_booster_is_none_that_leat_can_judge() {
        assertThatThrownBy(() -> new WatchSettings("jet-1", Set.of(Channel.INLET), Limits.DEFAULTS))
                .hasMessageContaining("boosted must be wired");
    }
}
