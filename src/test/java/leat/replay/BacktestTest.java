package leat.replay;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.watch.WatchSettings;
import org.junit.jupiter.api.Test;

class BacktestTest {

    private static final long ZERO = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z
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

        assertThat(backtest.changes()).isNotEmpty().allMatch(c -> c.kind() == Backtest.Kind.SAME);
    }

    @Test
    void a_milder_limit_lets_an_alarm_go() {
        Limits mild = Limits.with(Map.of(Limit.RATIO_WARNING, 1.3));

        Backtest backtest = Backtest.of(NOW, settings(mild), past("worn-booster"));

        assertThat(backtest.changes())
                .filteredOn(c -> c.either().gravest().rule() == Rule.RATIO)
                .extracting(Backtest.Change::kind)
                .containsOnly(Backtest.Kind.GONE);
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

        assertThat(backtest.before().alarms()).isEmpty();
        assertThat(backtest.changes())
                .extracting(Backtest.Change::kind)
                .contains(Backtest.Kind.NEW);
    }

    @Test
    void a_longer_delay_moves_an_alarm() {
        Limits slow = Limits.with(Map.of(Limit.RATIO_WARNING_DELAY, 33.0));

        Backtest backtest = Backtest.of(NOW, settings(slow), past("worn-booster"));

        assertThat(backtest.changes())
                .filteredOn(c -> c.either().gravest().rule() == Rule.RATIO)
                .extracting(Backtest.Change::kind)
                .contains(Backtest.Kind.MOVED);
    }
}
