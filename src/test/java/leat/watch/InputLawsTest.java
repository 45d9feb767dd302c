package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import leat.Gear;
import leat.phase.Phase;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What may be done to the inputs without changing what is said. The seed is the parameter. */
class InputLawsTest {

    static LongStream seeds() {
        return Gear.seeds(1, 10);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void inputs_read_back_from_the_store_give_the_outcomes_of_the_live_run(
            long seed, @TempDir Path folder) {
        Line line = RandomLine.of(seed, 25);
        Path file = folder.resolve("leat.db");
        List<Outcome> live = runAndStore(line, file);

        List<Outcome> replayed = new ArrayList<>();
        List<Outcome> stored = new ArrayList<>();
        Watch watch = new Watch(line.settings());
        try (StoreReader reader = StoreReader.open(file)) {
            reader.inputs(
                    "jet-1", 0, Long.MAX_VALUE, (seq, input) -> watch.feed(input, replayed::add));
            reader.outcomes("jet-1", 0, Long.MAX_VALUE, said -> stored.add(said.outcome()));
        }

        assertThat(replayed).isEqualTo(live);
        assertThat(stored).isEqualTo(live);
    }

    private static List<Outcome> runAndStore(Line line, Path file) {
        List<Outcome> live = new ArrayList<>();
        Watch watch = new Watch(line.settings());
        Batch batch = new Batch();
        try (Store store = Store.open(file)) {
            store.startRun("test", "hash", "site: boatyard", Line.START);
            long seq = 0;
            for (Input input : line.inputs()) {
                long number = ++seq;
                watch.feed(
                        input,
                        outcome -> {
                            live.add(outcome);
                            batch.said("jet-1", number, outcome, "hash");
                        });
                batch.fed("jet-1", number, input);
                if (input instanceof Tick) {
                    store.commit(batch);
                    batch.clear();
                }
            }
            store.commit(batch);
        }
        return live;
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_shift_by_whole_seconds_shifts_every_outcome_and_changes_nothing_else(long seed) {
        Line line = RandomLine.of(seed, 30);
        List<Input> inputs = withoutAlarmIds(line.inputs());
        long shift = (new Random(seed).nextInt(400_000_000) - 200_000_000) * 1_000_000L;

        List<Outcome> here = outcomes(line, inputs);
        List<Outcome> there = outcomes(line, Shifted.by(shift, inputs));

        assertThat(Shifted.words(0, there)).isEqualTo(Shifted.words(shift, here));
    }

    private static List<Outcome> outcomes(Line line, List<Input> inputs) {
        List<Outcome> outcomes = new ArrayList<>();
        Watch watch = new Watch(line.settings());
        inputs.forEach(input -> watch.feed(input, outcomes::add));
        return outcomes;
    }

    /** What concerns one alarm names it by an id that has the time and its number in it. */
    static List<Input> withoutAlarmIds(List<Input> inputs) {
        return inputs.stream()
                .filter(
                        i ->
                                !(i instanceof Instruction instruction
                                        && instruction.order() instanceof Order.AboutAlarm))
                .toList();
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void late_repeated_and_future_inputs_are_counted_and_change_nothing(long seed) {
        Line line = RandomLine.of(seed, 25);
        Random random = new Random(seed);
        List<Outcome> outcomes = new ArrayList<>();
        Watch watch = new Watch(line.settings());
        Watch untroubled = new Watch(line.settings());
        long late = 0;
        long future = 0;

        for (Input input : line.inputs()) {
            untroubled.feed(input, outcome -> {});
            watch.feed(input, outcomes::add);
            if (input instanceof Reading reading && random.nextInt(20) == 0) {
                long at = reading.atMicros() - random.nextInt(3) * 400_000L;
                watch.feed(Reading.good(reading.channel(), at, 77), outcomes::add);
                late++;
            } else if (input instanceof Tick tick && random.nextInt(5) == 0) {
                watch.feed(tick, outcomes::add);
                late++;
                long at = tick.atMicros() + 5_000_001 + random.nextInt(1_000_000_000);
                watch.feed(Reading.good(Channel.BOOSTED, at, 77), outcomes::add);
                future++;
            }
        }

        assertThat(outcomes).isEqualTo(line.outcomes());
        assertThat(watch.glance().outOfOrder()).isEqualTo(untroubled.glance().outOfOrder() + late);
        assertThat(watch.glance().ahead()).isEqualTo(untroubled.glance().ahead() + future);
    }

    @Test
    void a_reading_from_the_future_is_dropped_also_right_after_a_clock_step() {
        Line line = Line.withSeed(9).at(0).hold(10);
        long now = line.now() - 600_000_000;
        line.input(new ClockStep(now, line.now()));
        line.input(Reading.good(Channel.BOOSTED, now + 60_000_000, 77));
        Watch watch = new Watch(line.settings());

        line.inputs().forEach(input -> watch.feed(input, outcome -> {}));

        assertThat(watch.glance().ahead()).isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(longs = {31, 32, 33, 34, 35, 36})
    void a_bad_reading_now_and_then_never_becomes_a_pressure(long seed) {
        Line line = Line.withSeed(seed).at(0).hold(20).towards(100, 0.8, 60).towards(0, 2, 60);
        List<Outcome> outcomes = new ArrayList<>();
        Watch watch = new Watch(line.settings());
        Random random = new Random(seed);
        long next = 0;

        for (Input input : line.inputs()) {
            watch.feed(input, outcomes::add);
            if (input instanceof Reading reading && reading.atMicros() >= next) {
                Quality quality = random.nextBoolean() ? Quality.LOOP_BROKEN : Quality.UNDECODABLE;
                Input bad = Reading.bad(reading.channel(), reading.atMicros() + 1, quality);
                watch.feed(bad, outcomes::add);
                next = reading.atMicros() + 2_000_000 + random.nextInt(3_000_000);
            }
        }

        assertThat(outcomes).isEqualTo(line.outcomes());
    }

    @Test
    void while_a_channel_is_bad_nothing_is_measured_and_no_pressure_is_judged() {
        Line line = Line.withSeed(41).at(0).hold(20).towards(100, 0.8, 60);
        int before = line.inputs().size();
        for (int i = 0; i < 120; i++) {
            line.silence(0.5);
            line.input(Reading.good(Channel.INLET, line.now() + 1, 42));
            line.input(Reading.bad(Channel.BOOSTED, line.now() + 1, Quality.LOOP_BROKEN));
        }
        Watch watch = new Watch(line.settings());
        List<Outcome> outcomes = new ArrayList<>();
        line.inputs().subList(0, before).forEach(input -> watch.feed(input, outcome -> {}));

        line.inputs()
                .subList(before, line.inputs().size())
                .forEach(input -> watch.feed(input, outcomes::add));

        Told told = Told.of(outcomes);
        assertThat(watch.glance().phase()).isEqualTo(Phase.BLIND);
        assertThat(watch.glance().boostedKnown()).isFalse();
        assertThat(told.raised()).containsExactly("signal-bad WARNING");
        assertThat(told.startups).isEmpty();
        assertThat(told.rests).isEmpty();
        assertThat(told.steadies).hasSize(1); // what was steady before it went blind
        assertThat(told.steadies.get(0).boostedLowPsi().get()).isGreaterThan(90);
    }
}
