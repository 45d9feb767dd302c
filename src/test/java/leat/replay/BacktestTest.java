package leat.replay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import leat.alarm.AlarmChange;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.watch.Outcome;
import leat.watch.WatchSettings;
import org.junit.jupiter.api.Test;

class BacktestTest {

    private static final long ZERO = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z
    private static final long HOUR = 3_600_000_000L;
    private static final WatchSettings NOW = settings(Limits.DEFAULTS);

    private static WatchSettings settings(Limits limits) {
        return new WatchSettings(
                "jet-1", Set.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING), limits);
    }

    private static Past past(String name) {
        Scenario scenario = Catalogue.find(name).orElseThrow();
        String machine = scenario.machineNames().get(0);
        List<Input> inputs = new ArrayList<>();
        ScenarioRun.samples(scenario, 20)
                .filter(sample -> sample.machine().equals(machine))
                .forEach(sample -> add(sample, inputs));
        return inputs::forEach;
    }

    private static void add(Sample sample, List<Input> inputs) {
        long at = ZERO + sample.micros();
        inputs.add(Reading.good(Channel.RUNNING, at, sample.running() ? 1 : 0));
        inputs.add(Reading.good(Channel.INLET, at, sample.inletPsi()));
        inputs.add(Reading.good(Channel.BOOSTED, at, sample.boostedPsi()));
        if (at % Tick.PERIOD_MICROS == 0) {
            inputs.add(new Tick(at));
        }
    }

    @Test
    void under_the_same_limits_every_alarm_is_the_same() {
        Backtest backtest = Backtest.of(NOW, NOW, past("worn-booster"));

        assertThat(backtest.changes()).isNotEmpty().allMatch(c -> c.kind() == Backtest.Effect.SAME);
    }

    @Test
    void a_milder_limit_lets_an_alarm_go() {
        Limits mild = Limits.with(Map.of(Limit.RATIO_WARNING, 1.3));

        Backtest backtest = Backtest.of(NOW, settings(mild), past("worn-booster"));

        assertThat(backtest.changes())
                .filteredOn(c -> c.either().gravest().rule() == Rule.RATIO)
                .extracting(Backtest.Change::kind)
                .containsOnly(Backtest.Effect.GONE);
    }

    @Test
    void a_stricter_limit_brings_a_new_alarm() {
        Limits strict =
                Limits.with(
                        Map.of(
                                Limit.LEVEL_ADVISORY, 85.0,
                                Limit.LEVEL_HIGH_ADVISORY, 95.0,
                                Limit.LEVEL_HIGH_DELAY, 5.0));

        Backtest backtest = Backtest.of(NOW, settings(strict), past("healthy"));

        assertThat(backtest.callsBefore()).isZero();
        assertThat(backtest.changes())
                .extracting(Backtest.Change::kind)
                .contains(Backtest.Effect.NEW);
    }

    @Test
    void a_longer_delay_moves_an_alarm() {
        Limits slow = Limits.with(Map.of(Limit.RATIO_WARNING_DELAY, 33.0));

        Backtest backtest = Backtest.of(NOW, settings(slow), past("worn-booster"));

        assertThat(backtest.changes())
                .filteredOn(c -> c.either().gravest().rule() == Rule.RATIO)
                .extracting(Backtest.Change::kind)
                .contains(Backtest.Effect.MOVED);
    }

    @Test
    void the_calls_are_the_alarms_of_a_replay() {
        Replayed replayed = Replay.of(NOW, past("worn-booster"));

        Backtest backtest = Backtest.of(NOW, NOW, past("worn-booster"));

        assertThat(backtest.changes())
                .extracting(c -> c.either().raisedAtMicros(), c -> c.either().grade())
                .containsExactlyElementsOf(
                        replayed.alarms().stream()
                                .map(a -> tuple(a.first().atMicros(), a.grade()))
                                .toList());
        assertThat(backtest.fromMicros()).isEqualTo(replayed.fromMicros());
        assertThat(backtest.toMicros()).isEqualTo(replayed.toMicros());
    }

    @Test
    void an_alarm_that_nobody_acknowledges_counts_each_time_it_is_raised() {
        Backtest once = Backtest.of(NOW, NOW, past("worn-booster"));

        Backtest thrice =
                Backtest.of(
                        NOW,
                        NOW,
                        inTurn(
                                "worn-booster",
                                "healthy",
                                "worn-booster",
                                "healthy",
                                "worn-booster"));

        assertThat(ratioCalls(once)).isPositive();
        assertThat(ratioCalls(thrice)).isEqualTo(3 * ratioCalls(once));
    }

    @Test
    void an_alarm_that_somebody_shelves_counts_as_often_as_one_that_nobody_touches() {
        Past thrice = inTurn("worn-booster", "healthy", "worn-booster", "healthy", "worn-booster");
        AlarmChange raised =
                Replay.of(NOW, thrice).alarms().stream()
                        .map(AlarmLife::first)
                        .filter(change -> change.finding().rule() == Rule.RATIO)
                        .findFirst()
                        .orElseThrow();
        long later = raised.atMicros() + 1;
        Past shelved =
                before(
                        later,
                        new Instruction(
                                later,
                                "Kim",
                                new Order.Shelve(raised.alarmId(), later + HOUR, "on order")),
                        thrice);

        Backtest backtest = Backtest.of(NOW, NOW, shelved);

        assertThat(Replay.of(NOW, shelved).all(Outcome.InstructionRefused.class)).isEmpty();
        assertThat(ratioCalls(backtest)).isEqualTo(ratioCalls(Backtest.of(NOW, NOW, thrice)));
    }

    @Test
    void what_comes_while_the_machine_is_in_service_is_no_call() {
        Past inService =
                before(
                        ZERO,
                        new Instruction(
                                ZERO, "Kim", new Order.Journal(Order.Entry.SERVICE_ON, "new seal")),
                        past("worn-booster"));

        Replayed replayed = Replay.of(NOW, inService);
        Backtest backtest = Backtest.of(NOW, NOW, inService);

        assertThat(replayed.alarms()).isNotEmpty();
        assertThat(backtest.changes()).isEmpty();
    }

    /** A past in which somebody says something before the first input from then on. */
    private static Past before(long micros, Instruction instruction, Past past) {
        List<Input> inputs = new ArrayList<>();
        past.read(inputs::add);
        long earlier = inputs.stream().filter(input -> input.atMicros() < micros).count();
        inputs.add((int) earlier, instruction);
        return inputs::forEach;
    }

    private static long ratioCalls(Backtest backtest) {
        return backtest.changes().stream()
                .filter(c -> c.either().gravest().rule() == Rule.RATIO)
                .count();
    }

    private static Past inTurn(String... scenarios) {
        List<Input> inputs = new ArrayList<>();
        for (String scenario : scenarios) {
            long later = inputs.isEmpty() ? 0 : inputs.get(inputs.size() - 1).atMicros() - ZERO;
            past(scenario).read(input -> inputs.add(moved(input, later)));
        }
        return inputs::forEach;
    }

    private static Input moved(Input input, long micros) {
        return input instanceof Reading r
                ? Reading.good(r.channel(), r.atMicros() + micros, r.value())
                : new Tick(Tick.before(input.atMicros() + micros));
    }

    @Test
    void a_stretch_with_other_channels_is_judged_by_those() {
        WatchSettings unwired =
                new WatchSettings("jet-1", Set.of(Channel.INLET, Channel.BOOSTED), Limits.DEFAULTS);
        Past contactTakenOut = past("healthy", Set.of(Channel.INLET, Channel.BOOSTED));
        Past lost =
                into -> {
                    past("healthy").read(into);
                    into.accept(new SourceLost(Channel.RUNNING, ZERO + HOUR, "taken out"));
                    later(contactTakenOut, HOUR, into);
                };

        Backtest wired = Backtest.of(NOW, NOW, lost);
        Backtest inTwo =
                Backtest.of(
                        List.of(
                                new Backtest.Stretch(NOW, NOW, past("healthy")),
                                new Backtest.Stretch(
                                        unwired,
                                        unwired,
                                        into -> later(contactTakenOut, HOUR, into))));

        assertThat(wired.changes())
                .extracting(c -> c.either().gravest().rule())
                .containsExactly(Rule.SIGNAL_MISSING);
        assertThat(inTwo.changes()).isEmpty();
        assertThat(inTwo.fromMicros()).isEqualTo(wired.fromMicros());
        assertThat(inTwo.toMicros()).isEqualTo(wired.toMicros());
        assertThat(inTwo.watchedSeconds()).isEqualTo(wired.watchedSeconds());
    }

    private static Past past(String name, Set<Channel> wired) {
        return into ->
                past(name)
                        .read(
                                input -> {
                                    if (!(input instanceof Reading r)
                                            || wired.contains(r.channel())) {
                                        into.accept(input);
                                    }
                                });
    }

    private static void later(Past past, long micros, Consumer<Input> into) {
        past.read(input -> into.accept(moved(input, micros)));
    }

    @Test
    void what_leat_watched_is_counted_in_ticks() {
        Past gap =
                into -> {
                    past("healthy").read(into);
                    into.accept(new Tick(ZERO + 86_400_000_000L));
                };

        Backtest backtest = Backtest.of(NOW, NOW, gap);

        assertThat(backtest.toMicros() - backtest.fromMicros()).isEqualTo(86_400_000_000L);
        assertThat(backtest.watchedSeconds()).isBetween(60L, 600L);
    }
}
