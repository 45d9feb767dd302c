package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Observation;
import leat.diagnose.SignalFact;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.rule.Limit;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What a watch remembers of a machine's starts, and that each call carries what it makes of it. */
class RecollectionTest {

    private final Line line = Line.withSeed(3).runSignal().at(0).hold(8);

    private void run(double psi, double seconds) {
        line.running(true).towards(psi, 0.6, seconds);
        line.running(false).towards(0, 1, 30);
    }

    private List<Observation> seen() {
        return Recollection.of(line.outcomes()).all();
    }

    private Optional<Diagnosis> why(Rule rule) {
        return line.outcomes().stream()
                .filter(Outcome.AlarmChanged.class::isInstance)
                .map(Outcome.AlarmChanged.class::cast)
                .filter(call -> call.change().isCall() && call.change().finding().rule() == rule)
                .findFirst()
                .orElseThrow()
                .why();
    }

    private void journal(Order.Entry entry) {
        line.input(new Instruction(line.now() + 1, "Kim", new Order.Journal(entry, "")));
    }

    @Test
    void each_start_is_seen_with_its_run_and_the_stop_after_it() {
        run(100, 40);
        run(98, 50);

        assertThat(seen())
                .hasSize(2)
                .allSatisfy(
                        one -> {
                            assertThat(one.start().orElseThrow().startedAtMicros())
                                    .isEqualTo(one.startedAtMicros());
                            assertThat(one.run().orElseThrow().over()).isTrue();
                            assertThat(one.rest()).isPresent();
                        });
    }

    @Test
    void a_start_that_was_broken_off_is_seen_without_its_numbers() {
        line.running(true).towards(100, 6, 3).running(false).towards(0, 1, 30);
        run(100, 40);

        assertThat(seen()).hasSize(2);
        assertThat(seen().get(0).start()).isEmpty();
        assertThat(seen().get(1).start()).isPresent();
    }

    @Test
    void a_start_without_water_that_was_stopped_after_some_seconds_is_seen_with_its_numbers() {
        line.running(true).inlet(0).towards(60, 10, 8).running(false).inlet(42).towards(0, 1, 30);

        Startup stopped = seen().get(0).start().orElseThrow();
        assertThat(stopped.risen()).isFalse();
        assertThat(stopped.figure(Measurand.PEAK).get()).isBetween(30.0, 36.0);
        assertThat(stopped.inletRunningPsi().get()).isCloseTo(0, within(1.0));
    }

    @Test
    void a_start_whose_readings_are_not_believed_is_seen_with_the_reason_alone() {
        Line swapped = Line.withSeed(3).runSignal().inlet(0).at(42).hold(20);
        for (int i = 0; i < 2; i++) {
            swapped.running(true).inlet(100).hold(40);
            swapped.running(false).inlet(0).hold(30);
        }

        List<Observation> seen = Recollection.of(swapped.outcomes()).all();

        assertThat(seen).hasSizeGreaterThan(1).allMatch(one -> one.start().isEmpty());
        assertThat(seen.get(seen.size() - 1).signals())
                .containsExactly(new SignalFact(SignalFact.Kind.SWAPPED, Channel.INLET));
    }

    @ParameterizedTest
    @EnumSource(names = {"INLET", "BOOSTED"})
    void a_loop_that_breaks_off_again_and_again_is_loose(Channel channel) {
        line.running(true).towards(100, 0.6, 20);
        for (int i = 0; i < 120; i++) {
            line.hold(0.35).bad(channel, 0.15);
        }

        assertThat(signals()).containsExactly(new SignalFact(SignalFact.Kind.LOOSE, channel));
    }

    @ParameterizedTest
    @EnumSource(names = {"INLET", "BOOSTED"})
    void a_loop_that_is_broken_for_good_is_open(Channel channel) {
        line.running(true).towards(100, 0.6, 20).bad(channel, 40);

        assertThat(signals()).containsExactly(new SignalFact(SignalFact.Kind.OPEN, channel));
    }

    private List<SignalFact> signals() {
        assertThat(seen()).hasSize(1);
        return seen().get(0).signals();
    }

    @Test
    void what_was_seen_before_the_line_was_opened_says_nothing_after_it() {
        run(100, 40);
        run(100, 40);
        journal(Order.Entry.SERVICED);
        line.hold(5);
        run(100, 40);

        assertThat(seen()).hasSize(1);
    }

    @Test
    void a_call_in_the_climb_rests_on_the_start_as_far_as_it_has_come() {
        line.running(true).towards(50, 8, 20);

        assertThat(why(Rule.RISE).orElseThrow().observations()).isEqualTo(1);
    }

    /** Its inlet calls before the start is measured. */
    @Test
    void a_call_while_the_booster_starves_says_so() {
        line.running(true).inlet(-2).towards(3, 0.3, 9);

        Diagnosis why = why(Rule.INLET).orElseThrow();
        assertThat(Told.by(line).startups).isEmpty();
        assertThat(why.first().cause()).isEqualTo(Cause.SUPPLY_SHUT);
    }

    @Test
    void a_call_of_a_pressure_is_hardly_of_a_sound_machine() {
        run(100, 40);
        line.running(true).inlet(24).towards(100, 0.6, 60);

        assertThat(why(Rule.INLET).orElseThrow().first().cause()).isNotEqualTo(Cause.HEALTHY);
    }

    @Test
    void a_call_in_a_run_rests_on_that_run_although_it_lasts() {
        run(100, 40);
        line.running(true).towards(60, 0.6, 60);

        assertThat(why(Rule.LEVEL_LOW).orElseThrow().observations()).isEqualTo(1);
        assertThat(why(Rule.LEVEL_LOW).orElseThrow().known()).isZero();
    }

    @Test
    void a_call_that_three_starts_gave_rests_on_all_of_them_and_on_the_baseline() {
        line.limit(Limit.BASELINE_STARTS, 5).limit(Limit.BASELINE_STARTS_RUNNING, 3);
        for (int i = 0; i < 5; i++) {
            run(100, 40);
        }
        for (int i = 0; i < 3; i++) {
            run(89, 40);
        }

        Diagnosis why = why(Rule.BASELINE).orElseThrow();
        assertThat(why.observations()).isEqualTo(3);
        assertThat(why.known()).isEqualTo(5);
    }

    @Test
    void a_signal_that_is_bad_before_any_start_has_a_reason() {
        line.input(Reading.bad(Channel.BOOSTED, line.now() + 1, Quality.LOOP_BROKEN)).silence(20);

        assertThat(why(Rule.SIGNAL_BAD)).isPresent();
    }

    @Test
    void what_calls_nobody_carries_no_reason() {
        run(60, 60);
        run(100, 60);

        assertThat(line.outcomes())
                .filteredOn(Outcome.AlarmChanged.class::isInstance)
                .hasSizeGreaterThan(2)
                .map(Outcome.AlarmChanged.class::cast)
                .allSatisfy(
                        said ->
                                assertThat(said.why().isPresent())
                                        .isEqualTo(said.change().isCall()));
    }

    @Test
    void a_watch_restored_in_the_middle_of_a_run_gives_its_call_the_same_reason() {
        line.limit(Limit.BASELINE_STARTS, 3).limit(Limit.BASELINE_STARTS_RUNNING, 2);
        for (int i = 0; i < 4; i++) {
            run(100, 40);
        }
        run(88, 40);
        line.running(true).towards(88, 0.6, 30);
        int cut = line.inputs().size();
        line.hold(30).running(false).towards(0, 1, 30);
        List<Outcome> goesOn = new ArrayList<>();

        Watch first = new Watch(line.settings());
        List<Input> inputs = line.inputs();
        inputs.subList(0, cut).forEach(input -> first.feed(input, goesOn::add));
        Watch second = Watch.restore(line.settings(), first.snapshot());
        inputs.subList(cut, inputs.size()).forEach(input -> second.feed(input, goesOn::add));

        assertThat(goesOn).isEqualTo(line.outcomes());
        assertThat(goesOn)
                .anyMatch(
                        o ->
                                o instanceof Outcome.AlarmChanged said
                                        && said.why()
                                                .filter(why -> why.observations() > 1)
                                                .isPresent());
    }
}
