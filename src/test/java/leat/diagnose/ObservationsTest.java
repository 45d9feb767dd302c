package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import leat.Gear;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.wire.StateBytes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class ObservationsTest {

    private static final Figure ABSENT = Figure.absent(Absence.NOT_LOOKED_AT);

    private final Observations observations = Observations.latest();

    private static Startup start(long at) {
        return new Startup(
                at, at + 20, Map.of(Measurand.RISE, Figure.of(1.2)), List.of(), /* risen= */ true);
    }

    private static Run run(long from, long to, boolean over) {
        return new Run(from, to, over, Map.of(Measurand.TOP, Figure.of(100)));
    }

    private static RestSpell rest(long at, double psi) {
        return new RestSpell(at, at + 12, Figure.of(psi), Figure.of(42), ABSENT, true);
    }

    private static Finding found(
            Rule rule, Channel channel, Quantity quantity, long at, Remark... remarks) {
        return found(rule, channel, quantity, at, Figure.of(25), remarks);
    }

    private static Finding found(
            Rule rule,
            Channel channel,
            Quantity quantity,
            long at,
            Figure boostedPsi,
            Remark... remarks) {
        return new Finding(
                rule,
                channel,
                Grade.WARNING,
                at - 5,
                at,
                quantity,
                30,
                5,
                Finding.Sense.AT_MOST,
                Figure.of(42),
                boostedPsi,
                List.of(remarks));
    }

    private static Finding open(Channel channel, long at) {
        return found(
                Rule.SIGNAL_BAD,
                channel,
                Quantity.TIME_SECONDS,
                at,
                new Remark(Remark.Kind.QUALITY, List.of(), Quality.AT_TOP.key()));
    }

    private void lives(long at) {
        observations.begins(at);
        observations.started(start(at));
        observations.ran(run(at, at + 60, true));
        observations.rested(rest(at + 60, 0));
    }

    private List<SignalFact> facts() {
        return observations.all().stream().flatMap(one -> one.signals().stream()).toList();
    }

    @Test
    void a_start_has_its_run_and_the_stop_after_it() {
        lives(100);
        lives(300);

        assertThat(observations.all())
                .containsExactly(
                        new Observation(
                                100,
                                Optional.of(start(100)),
                                Optional.of(run(100, 160, true)),
                                Optional.of(rest(160, 0)),
                                List.of()),
                        new Observation(
                                300,
                                Optional.of(start(300)),
                                Optional.of(run(300, 360, true)),
                                Optional.of(rest(360, 0)),
                                List.of()));
    }

    @Test
    void only_the_newest_starts_are_remembered() {
        LongStream.range(0, Observations.MOST + 3).forEach(i -> lives(1000 * i));

        assertThat(observations.all())
                .extracting(Observation::startedAtMicros)
                .hasSize(Observations.MOST)
                .startsWith(3_000L)
                .endsWith(12_000L);
    }

    @Test
    void a_start_that_is_measured_anew_while_it_lasts_is_one_and_so_is_its_run() {
        observations.begins(102);
        observations.started(start(99));
        observations.ran(run(101, 130, false));
        observations.started(start(100));
        observations.ran(run(100, 160, true));

        assertThat(observations.all())
                .containsExactly(Observation.at(100).with(start(100)).with(run(100, 160, true)));
    }

    @Test
    void a_stop_that_is_measured_when_the_next_start_has_begun_belongs_to_the_start_before_it() {
        observations.begins(100);
        observations.started(start(100));
        observations.ran(run(100, 160, true));
        observations.begins(170);
        observations.rested(rest(160, 3));
        observations.started(start(170));

        assertThat(observations.all().get(0).rest()).contains(rest(160, 3));
        assertThat(observations.all().get(1)).isEqualTo(Observation.at(170).with(start(170)));
    }

    @Test
    void a_stop_of_a_machine_that_was_first_seen_at_rest_stands_for_itself() {
        observations.rested(rest(10, 30));
        lives(100);

        assertThat(observations.all()).hasSize(2);
        assertThat(observations.all().get(0)).isEqualTo(Observation.at(10).with(rest(10, 30)));
    }

    @Test
    void a_start_that_was_broken_off_says_nothing_and_keeps_its_place() {
        observations.begins(100);
        observations.saysNothing(start(100));
        observations.ran(run(100, 104, true));
        lives(300);

        assertThat(observations.all()).hasSize(2);
        assertThat(observations.all().get(0).start()).isEmpty();
        assertThat(observations.all().get(0).run()).isPresent();
    }

    @Test
    void what_looked_like_a_start_and_was_none_leaves_nothing_behind() {
        observations.begins(100);
        observations.started(start(100));
        observations.wasNone();
        lives(300);

        assertThat(observations.all()).hasSize(1);
    }

    static Stream<Arguments> facts_of_findings() {
        return Stream.of(
                Arguments.of(
                        found(Rule.SIGNAL_BAD, Channel.BOOSTED, Quantity.TIME_SECONDS, 120, ABSENT),
                        SignalFact.Kind.OPEN),
                Arguments.of(
                        found(Rule.SIGNAL_BAD, Channel.BOOSTED, Quantity.TIME_SECONDS, 120),
                        SignalFact.Kind.LOOSE),
                Arguments.of(open(Channel.BOOSTED, 120), SignalFact.Kind.OPEN),
                Arguments.of(
                        found(Rule.SIGNAL_MISSING, Channel.BOOSTED, Quantity.RATIO, 120),
                        SignalFact.Kind.LOOSE),
                Arguments.of(
                        found(
                                Rule.SIGNAL_BAD,
                                Channel.BOOSTED,
                                Quantity.TIME_SECONDS,
                                120,
                                Remark.of(Remark.Kind.NEVER_RIGHT)),
                        SignalFact.Kind.NEVER_RIGHT),
                Arguments.of(
                        found(
                                Rule.SIGNAL_BAD,
                                Channel.BOOSTED,
                                Quantity.TIME_SECONDS,
                                120,
                                Remark.of(Remark.Kind.NEVER_MOVED, 0)),
                        SignalFact.Kind.NEVER_RIGHT),
                Arguments.of(
                        found(Rule.SIGNAL_STUCK, Channel.BOOSTED, Quantity.TIME_SECONDS, 120),
                        SignalFact.Kind.STUCK),
                Arguments.of(
                        found(Rule.SIGNAL_SWAPPED, Channel.BOOSTED, Quantity.PRESSURE_PSI, 120),
                        SignalFact.Kind.SWAPPED));
    }

    @ParameterizedTest
    @MethodSource("facts_of_findings")
    void what_was_wrong_with_a_channel_is_of_the_start_in_which_it_was_found(
            Finding finding, SignalFact.Kind kind) {
        lives(10);
        observations.begins(100);
        observations.found(finding);
        observations.started(start(100));

        assertThat(observations.all().get(0).signals()).isEmpty();
        assertThat(observations.all().get(1))
                .isEqualTo(
                        Observation.at(100)
                                .with(start(100))
                                .with(new SignalFact(kind, Channel.BOOSTED)));
    }

    @Test
    void a_gauge_that_broke_off_twice_in_a_run_hangs_on_a_loose_loop() {
        observations.begins(100);
        observations.ran(broken(1, false));
        assertThat(facts()).isEmpty();

        observations.ran(broken(2, false));
        observations.ran(broken(3, true));

        assertThat(facts()).containsExactly(new SignalFact(SignalFact.Kind.LOOSE, Channel.INLET));
    }

    private static Run broken(int times, boolean over) {
        return new Run(100, 130, over, Map.of(Measurand.INLET_BREAKS, Figure.of(times)));
    }

    @Test
    void what_is_found_of_pressures_or_of_a_sensors_clock_is_no_fact_of_a_signal() {
        lives(10);
        for (Rule rule : Rule.values()) {
            if (!rule.isAboutSignal() || rule == Rule.SIGNAL_CLOCK) {
                observations.found(found(rule, Channel.BOOSTED, Quantity.PRESSURE_PSI, 20));
            }
        }

        assertThat(facts()).isEmpty();
    }

    @Test
    void channel_from_which_nothing_comes_says_nothing_of_its_loop() {
        lives(10);
        for (Channel channel : Channel.values()) {
            observations.found(
                    found(Rule.SIGNAL_MISSING, channel, Quantity.TIME_SECONDS, 20, ABSENT));
        }

        assertThat(facts()).isEmpty();
    }

    @Test
    void a_fact_stands_in_every_start_until_it_has_gone_and_is_told_once_in_each() {
        observations.found(open(Channel.INLET, 20));
        lives(100);
        observations.found(open(Channel.INLET, 120));
        lives(300);
        observations.gone(Rule.SIGNAL_BAD, Channel.BOOSTED);
        lives(500);
        observations.gone(Rule.SIGNAL_BAD, Channel.INLET);
        lives(700);

        SignalFact open = new SignalFact(SignalFact.Kind.OPEN, Channel.INLET);
        assertThat(observations.all())
                .extracting(Observation::signals)
                .containsExactly(List.of(open), List.of(open), List.of(open), List.of());
    }

    @Test
    void a_fact_without_any_start_is_an_observation_by_itself() {
        observations.found(open(Channel.BOOSTED, 20));

        assertThat(observations.all())
                .containsExactly(
                        Observation.at(15)
                                .with(new SignalFact(SignalFact.Kind.OPEN, Channel.BOOSTED)));
    }

    @Test
    void a_pressure_that_comes_long_after_the_stop_was_measured_is_seen() {
        lives(100);
        observations.found(found(Rule.REST, Channel.BOOSTED, Quantity.PRESSURE_PSI, 900));

        RestSpell rest = observations.all().get(0).rest().orElseThrow();
        assertThat(rest.boostedPsi()).isEqualTo(Figure.of(25));
        assertThat(rest.stoppedAtMicros()).isEqualTo(160);
    }

    @Test
    void after_the_line_was_opened_only_what_is_wrong_with_a_channel_stands() {
        lives(100);
        observations.found(open(Channel.INLET, 170));
        observations.forget();

        assertThat(observations.all()).isEmpty();
        lives(300);
        assertThat(observations.all()).hasSize(1);
        assertThat(facts()).hasSize(1);
    }

    @Test
    void since_a_time_is_the_start_in_which_it_lies_and_all_after_it() {
        lives(100);
        lives(300);
        lives(500);

        assertThat(observations.since(50)).hasSize(3);
        assertThat(observations.since(299)).hasSize(3);
        assertThat(observations.since(300)).hasSize(2);
        assertThat(observations.since(450)).hasSize(2);
        assertThat(observations.since(9_000)).hasSize(1);
        assertThat(Observations.latest().since(0)).isEmpty();
    }

    static LongStream seeds() {
        return Gear.seeds(20, 400);
    }

    /** A clock is set back, a store holds half of what was said: the order may be any. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void whatever_comes_in_whatever_order_nothing_is_lost_of_the_bounds(long seed) {
        Random random = new Random(seed);
        List<Runnable> told = new ArrayList<>();
        for (int i = 0; i < 60; i++) {
            long at = random.nextInt(40);
            Rule rule = Rule.values()[random.nextInt(Rule.values().length)];
            Channel channel = Channel.values()[random.nextInt(Channel.values().length)];
            told.add(
                    switch (random.nextInt(9)) {
                        case 0, 1 -> () -> observations.begins(at);
                        case 2 -> () -> observations.started(start(at));
                        case 3 -> () -> observations.saysNothing(start(at));
                        case 4 -> () -> observations.ran(run(at, at + 9, random.nextBoolean()));
                        case 5 -> () -> observations.rested(rest(at, 1));
                        case 6 ->
                                () ->
                                        observations.found(
                                                found(rule, channel, Quantity.TIME_SECONDS, at));
                        case 7 -> () -> observations.gone(rule, channel);
                        default -> observations::wasNone;
                    });
        }

        for (Runnable one : told) {
            one.run();

            assertThat(observations.all()).hasSizeLessThanOrEqualTo(Observations.MOST);
            assertThat(observations.all()).doesNotContain(Observation.at(0));
            byte[] state = StateBytes.of(1, observations::keep);
            Observations taken = Observations.latest();
            StateBytes.into(1, state, taken::keep);
            assertThat(taken.all()).isEqualTo(observations.all());
            assertThat(StateBytes.of(1, taken::keep)).isEqualTo(state);
        }
    }
}
