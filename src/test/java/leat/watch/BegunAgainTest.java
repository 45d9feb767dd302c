package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.Supplier;
import leat.Gear;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.measure.Measurand;
import leat.rule.Limit;
import leat.rule.StartupVerdict.Outcome;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** A start that is broken off and begun again: each is measured by its own climb. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BegunAgainTest {

    private final Tapes tapes = new Tapes();

    private static double second(long micros) {
        return (micros - BenchFeed.START) / 1e6;
    }

    /** The true lowest pressure between two seconds. */
    private double lowest(Scenario scenario, double from, double to) {
        Supplier<Sample> samples = tapes.play(scenario, "jet-1");
        double lowest = Double.POSITIVE_INFINITY;
        for (Sample s = samples.get(); s.micros() / 1e6 < to; s = samples.get()) {
            if (s.micros() / 1e6 > from) {
                lowest = Math.min(lowest, s.truth().boostedPsi());
            }
        }
        return lowest;
    }

    static List<Arguments> tries() {
        return Gear.everyNth(
                3,
                List.of(
                        Arguments.of(1.9, 1.1),
                        Arguments.of(1.2, 0.8),
                        Arguments.of(3, 2),
                        Arguments.of(2, 4),
                        Arguments.of(5, 1)));
    }

    @ParameterizedTest
    @MethodSource("tries")
    void the_next_start_begins_with_its_own_signal_on_the_pressure_that_is_left(
            double run, double pause) {
        double again = 10 + run + pause;
        Plays play = Plays.usual(3).run(10, 10 + run).run(again, again + 20);

        Told told = play.feed(again + 20).from(tapes).wiring(Wiring.RUNNING).told();

        assertThat(told.verdicts)
                .extracting(v -> v.outcome())
                .containsExactly(Outcome.NOT_JUDGED, Outcome.GOOD);
        assertThat(told.note(0))
                .isEqualTo(
                        "not judged: broken off after %.1f s: the run signal went off"
                                .formatted(run));
        assertThat(second(told.startups.get(1).startedAtMicros())).isCloseTo(again, within(0.001));
        assertThat(told.startups.get(1).basePsi().get())
                .isCloseTo(lowest(play.until(again + 20), again, again + 2), within(1.0));
        assertThat(told.startups.get(1).figure(Measurand.DEAD).isPresent()).isTrue();
        assertThat(told.raised()).isEmpty();
    }

    @Test
    void of_three_tries_only_the_last_is_judged_and_by_its_own_rise() {
        Line line = Line.withSeed(5).runSignal().at(0).hold(9);
        line.running(true).towards(30, 1, 1.9).running(false).towards(0, 8, 2);
        line.running(true).towards(60, 1, 1.5).running(false).towards(0, 8, 3);
        line.running(true).towards(100, 0.3, 30);

        Told told = Told.by(line);

        assertThat(told.verdicts)
                .extracting(v -> v.outcome())
                .containsExactly(Outcome.NOT_JUDGED, Outcome.NOT_JUDGED, Outcome.GOOD);
        assertThat(told.startups.get(2).riseSeconds().get())
                .isCloseTo(0.3 * Math.log(9), within(0.06));
        assertThat(told.raised()).isEmpty();
    }

    @Test
    void from_the_pressures_alone_a_collapse_and_a_new_climb_end_the_start_before() {
        Plays play = Plays.usual(3).run(10, 12).run(16, 40);

        Told told = play.feed(40).told();

        assertThat(told.startups).hasSize(2);
        assertThat(told.note(0)).startsWith("not judged: broken off after 2.");
        assertThat(second(told.startups.get(1).startedAtMicros())).isBetween(16.0, 16.6);
        assertThat(told.startups.get(1).riseSeconds().get()).isLessThan(1);
    }

    /** Whether the booster was stopped or its coupling let go, nobody can tell. */
    @Test
    void a_climb_that_fell_back_by_a_little_is_not_judged_by_its_duration() {
        Line line = Line.withSeed(4).at(0).hold(9).towards(80, 1, 1.5).towards(0, 12, 2.5);
        line.towards(100, 0.5, 30);

        Told told = Told.by(line);

        assertThat(told.note(0)).isEqualTo("not judged: the climb was interrupted");
        assertThat(told.raised()).isEmpty();
    }

    /** The way from what is left is shorter than that from rest. */
    @Test
    void a_start_on_the_pressure_that_is_left_is_not_learned_from() {
        Line line = Line.withSeed(6).runSignal().limit(Limit.BASELINE_STARTS, 3).at(0).hold(9);
        for (int i = 0; i < 2; i++) {
            line.running(true).towards(100, 0.6, 20).running(false).towards(0, 3, 3);
            line.running(true).towards(100, 0.6, 20).running(false).towards(0, 3, 30);
        }

        Told told = Told.by(line);

        assertThat(told.verdicts).hasSize(4).allMatch(v -> v.outcome() == Outcome.GOOD);
        assertThat(told.baselines).isEmpty();
        assertThat(told.learnings).extracting(l -> l.good()).containsExactly(1, 2);
    }
}
