package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import leat.Gear;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Reading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The laws of the fold. The seed is the test's parameter and so stands in its name. */
class WatchLawsTest {

    static LongStream seeds() {
        return Gear.seeds(1, 24);
    }

    static LongStream someSeeds() {
        return Gear.seeds(2, 10);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_watch_restored_at_any_input_goes_on_as_one_that_never_stopped(long seed) {
        Line line = RandomLine.of(seed, 25);
        List<Input> inputs = line.inputs();
        IntStream cuts = new Random(seed).ints(Gear.of(6, 20), 0, inputs.size() + 1);

        assertGoesOnTheSame(line, cuts.sorted());
    }

    /** By day at each fifth, whose kinds come up in turn all the same. */
    @Test
    void a_watch_restored_at_every_single_input_of_a_start_goes_on_the_same() {
        Line line = Line.withSeed(5).at(0).hold(2).towards(70, 0.8, 16).towards(20, 1.0, 3);

        assertGoesOnTheSame(
                line,
                IntStream.rangeClosed(0, line.inputs().size())
                        .filter(cut -> cut % Gear.of(5, 1) == 0));
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_watch_restored_over_and_over_goes_on_as_one_that_never_stopped(long seed) {
        Line line = RandomLine.of(seed, Gear.of(12, 40));
        Random random = new Random(seed);
        List<Outcome> outcomes = new ArrayList<>();
        Watch watch = new Watch(line.settings());

        for (Input input : line.inputs()) {
            int before = outcomes.size();
            watch.feed(input, outcomes::add);
            boolean usual = input instanceof Reading r && r.quality().isUsable();
            if (!usual || outcomes.size() > before || random.nextInt(10) == 0) {
                watch = Watch.restore(line.settings(), watch.snapshot());
            }
        }

        assertThat(outcomes).isEqualTo(line.outcomes());
    }

    /** One watch that is never stopped is left at each of these inputs, in order, to another. */
    private static void assertGoesOnTheSame(Line line, IntStream cuts) {
        List<Input> inputs = line.inputs();
        List<Outcome> whole = line.outcomes();
        List<Outcome> before = new ArrayList<>();
        Watch first = new Watch(line.settings());
        int fed = 0;
        for (int cut : cuts.toArray()) {
            inputs.subList(fed, cut).forEach(input -> first.feed(input, before::add));
            fed = cut;
            List<Outcome> outcomes = new ArrayList<>(before);
            byte[] state = first.snapshot();
            Watch second = Watch.restore(line.settings(), state);
            assertThat(second.snapshot()).as("cut at input %d", cut).isEqualTo(state);
            inputs.subList(cut, inputs.size()).forEach(input -> second.feed(input, outcomes::add));
            assertThat(outcomes).as("cut at input %d", cut).isEqualTo(whole);
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("someSeeds")
    void the_same_inputs_give_the_same_outcomes_again(long seed) {
        assertThat(RandomLine.of(seed, 40).outcomes())
                .isEqualTo(RandomLine.of(seed, 40).outcomes());
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("someSeeds")
    void outcomes_come_in_the_order_of_the_inputs_and_never_before_them(long seed) {
        Line line = RandomLine.of(seed, 30);
        Watch watch = new Watch(line.settings());

        for (Input input : line.inputs()) {
            long latest = input instanceof ClockStep step ? step.fromMicros() : input.atMicros();
            watch.feed(
                    input, outcome -> assertThat(outcome.atMicros()).isLessThanOrEqualTo(latest));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("someSeeds")
    void damaged_states_are_refused_and_never_half_taken_up(long seed) {
        Line line = RandomLine.of(seed, 10);
        Watch watch = new Watch(line.settings());
        line.inputs().forEach(input -> watch.feed(input, outcome -> {}));
        byte[] state = watch.snapshot();

        byte[] cut =
                Arrays.copyOf(state, state.length - 1 - new Random(seed).nextInt(state.length - 1));
        byte[] longer = Arrays.copyOf(state, state.length + 1);

        assertThatThrownBy(() -> Watch.restore(line.settings(), cut))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Watch.restore(line.settings(), longer))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void a_state_of_another_machine_or_wiring_is_refused() {
        byte[] state = new Watch(Line.quiet().settings()).snapshot();

        assertThatThrownBy(
                        () ->
                                Watch.restore(
                                        new WatchSettings(
                                                "jet-2",
                                                Set.of(Channel.INLET, Channel.BOOSTED),
                                                Limits.DEFAULTS),
                                        state))
                .hasMessageContaining("jet-1")
                .hasMessageContaining("jet-2");
        assertThatThrownBy(() -> Watch.restore(Line.quiet().runSignal().settings(), state))
                .hasMessageContaining("other channels");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("someSeeds")
    void a_level_that_sits_on_a_limit_with_noise_inside_the_deadband_raises_once(long seed) {
        Line line = Line.withSeed(seed).at(0).hold(5).towards(89.9, 0.6, 900);

        long raised = Told.by(line).raised().stream().filter("level-low ADVISORY"::equals).count();

        assertThat(raised).isEqualTo(1);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("someSeeds")
    void a_faster_climb_never_measures_as_a_slower_one(long seed) {
        double before = Double.POSITIVE_INFINITY;
        for (double tau = 2.5; tau > 0.2; tau *= 0.9) {
            Line line = Line.withSeed(seed).at(0).hold(8).towards(100, tau, 30);
            double rise = Told.by(line).startups.get(0).riseSeconds().get();
            assertThat(rise).as("tau %.2f", tau).isLessThan(before + 0.02);
            before = rise;
        }
    }
}
