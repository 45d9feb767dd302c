package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.LongStream;
import leat.Gear;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Reading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Sensors say what they like of the time: nobody goes blind for it. The seed is the parameter. */
class ClaimedTimesTest {

    private static final long SECOND = 1_000_000;

    /** A silence of any cause is told after so long. */
    private static final long TOLD_WITHIN = 5 * SECOND;

    static LongStream seeds() {
        return Gear.seeds(1, 40);
    }

    /** What a sensor's clock says, as it arrives at a time by leat's own. */
    private interface Clock {
        long at(long micros);
    }

    /** One of many ways to be wrong, or right, for a while. */
    private static Clock any(Random random) {
        long off = random.nextLong() >> random.nextInt(12, 64);
        long jitter = 1 + random.nextInt(4_000_000);
        return switch (random.nextInt(8)) {
            case 0 -> at -> at;
            case 1 -> at -> at + off;
            case 2 -> at -> off;
            case 3 -> at -> at + random.nextLong(jitter) - jitter / 2;
            case 4 -> at -> random.nextBoolean() ? at + SECOND : at - SECOND;
            case 5 -> at -> at + 3_600 * SECOND;
            case 6 -> at -> 2 * (at / 2_000_000_000L) * SECOND;
            default -> at -> random.nextLong();
        };
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void every_reading_is_judged_or_said_to_be_unjudged_within_five_seconds(long seed) {
        Random random = new Random(seed);
        Line line = RandomLine.of(seed, 20);
        Watch watch = new Watch(line.settings());
        Map<Channel, Long> droppedSince = new EnumMap<>(Channel.class);
        Standing standing = new Standing();
        Map<Channel, Clock> clocks = new EnumMap<>(Channel.class);
        long readings = 0;
        for (Input input : line.inputs()) {
            if (!(input instanceof Reading reading)) {
                droppedSince.clear();
                watch.feed(input, standing::take);
                continue;
            }
            readings++;
            if (random.nextInt(300) == 0 || !clocks.containsKey(reading.channel())) {
                clocks.put(reading.channel(), any(random));
            }
            long claimed = clocks.get(reading.channel()).at(reading.atMicros());
            long dropped = watch.glance().outOfOrder();
            watch.feed(reading.claiming(claimed), standing::take);
            if (watch.glance().outOfOrder() == dropped) {
                droppedSince.remove(reading.channel());
                continue;
            }
            long since = droppedSince.computeIfAbsent(reading.channel(), any -> reading.atMicros());
            boolean isTold =
                    standing.has(Rule.SIGNAL_CLOCK, reading.channel())
                            || standing.has(Rule.SIGNAL_MISSING, reading.channel());
            assertThat(reading.atMicros() - since <= TOLD_WITHIN || isTold)
                    .as("%s dropped since %d", reading, since)
                    .isTrue();
        }

        assertThat(readings).isGreaterThan(5_000);
        assertThat(watch.glance().ahead()).isZero();
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void a_clock_that_is_far_off_changes_nothing_but_that_it_is_told(long seed) {
        Line line = RandomLine.of(seed, 25);
        List<Input> inputs = InputLawsTest.withoutAlarmIds(line.inputs());
        Random random = new Random(seed);
        long off = (random.nextBoolean() ? 1 : -1) * (2 + random.nextInt(1_000_000)) * SECOND;
        List<Outcome> expected = new ArrayList<>();
        Watch untroubled = new Watch(line.settings());
        List<Outcome> outcomes = new ArrayList<>();
        Watch watch = new Watch(line.settings());

        for (Input input : inputs) {
            untroubled.feed(input, expected::add);
            watch.feed(
                    input instanceof Reading reading
                            ? reading.claiming(reading.atMicros() + off)
                            : input,
                    outcomes::add);
        }

        assertThat(outcomes).anyMatch(ClaimedTimesTest::isAboutClock);
        outcomes.removeIf(ClaimedTimesTest::isAboutClock);
        assertThat(withoutNumbers(outcomes)).isEqualTo(withoutNumbers(expected));
    }

    private static boolean isAboutClock(Outcome outcome) {
        return outcome instanceof Outcome.AlarmChanged changed
                && changed.change().finding().rule() == Rule.SIGNAL_CLOCK;
    }

    /** An alarm's id ends with its number in the order of coming. */
    private static List<String> withoutNumbers(List<Outcome> outcomes) {
        return outcomes.stream().map(o -> o.toString().replaceAll("Z-\\d+", "Z")).toList();
    }

    /** An hour ahead, as local time that is sent as if it were UTC, in the first seconds alone. */
    @Test
    void a_sensor_that_is_ahead_at_first_and_then_right_does_not_silence_its_machine() {
        Line line = Line.withSeed(5).at(0).hold(10).towards(60, 2, 70);
        long first = line.inputs().get(0).atMicros();
        Standing standing = new Standing();
        Watch watch = new Watch(line.settings());

        for (Input input : line.inputs()) {
            boolean ahead = input.atMicros() < first + 3 * SECOND;
            watch.feed(
                    input instanceof Reading reading
                            ? reading.claiming(reading.atMicros() + (ahead ? 3_600 * SECOND : 0))
                            : input,
                    standing::take);
        }

        assertThat(standing.has(Rule.RATIO, Channel.BOOSTED)).isTrue();
    }

    /** A weak run after each step is called, whichever way the clock was set. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void after_a_step_of_the_computer_s_clock_judging_goes_on_at_once(long seed) {
        Random random = new Random(seed);
        Line line = Line.withSeed(seed).at(0).hold(5);
        long step = (random.nextBoolean() ? 1 : -1) * (1 + random.nextLong(1L << 51));
        long at = line.now() + step / SECOND * SECOND;
        line.input(new ClockStep(at, line.now())).jump(at - line.now());
        line.at(0).hold(15).towards(60, 2, 70);
        Standing standing = new Standing();
        Watch watch = new Watch(line.settings());

        line.inputs().forEach(input -> watch.feed(input, standing::take));

        assertThat(standing.has(Rule.RATIO, Channel.BOOSTED)).as("a step of %d", step).isTrue();
        assertThat(watch.glance().outOfOrder() + watch.glance().ahead()).isZero();
    }

    /** The alarms that stand. */
    private static final class Standing {

        private final List<String> alarms = new ArrayList<>();

        void take(Outcome outcome) {
            if (outcome instanceof Outcome.AlarmChanged changed) {
                String key =
                        key(
                                changed.change().finding().rule(),
                                changed.change().finding().channel());
                alarms.remove(key);
                if (changed.change().to().isActive()) {
                    alarms.add(key);
                }
            }
        }

        boolean has(Rule rule, Channel channel) {
            return alarms.contains(key(rule, channel));
        }

        private static String key(Rule rule, Channel channel) {
            return rule + " " + channel;
        }
    }
}
