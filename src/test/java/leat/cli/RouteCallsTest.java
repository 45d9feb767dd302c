package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.MachineSettings;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.StoreSettings;
import leat.measure.Figure;
import leat.replay.Backtest;
import leat.replay.RunCount;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.watch.Outcome;
import leat.words.Language;
import org.junit.jupiter.api.Test;

class RouteCallsTest {

    private static final long MINUTE = 60_000_000;
    private static final Grade WARNING = Grade.WARNING;

    @Test
    void what_nobody_answers_is_called_again_and_goes_to_the_manager() {
        List<Outcome> before =
                List.of(
                        change(1, AlarmEvent.RAISED, AlarmState.UNACKNOWLEDGED, WARNING, 0),
                        change(
                                2,
                                AlarmEvent.WORSENED,
                                AlarmState.UNACKNOWLEDGED,
                                Grade.CRITICAL,
                                70),
                        change(3, AlarmEvent.ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, WARNING, 130));
        List<Outcome> after =
                List.of(change(1, AlarmEvent.RAISED, AlarmState.UNACKNOWLEDGED, WARNING, 400));

        List<RouteCalls> calls =
                RouteCalls.of(
                        site(route("shift", Optional.empty()), route("manager", minutes(30))),
                        List.of(backtest("jet-1", before, after)));

        assertThat(calls)
                .containsExactly(
                        new RouteCalls(
                                "shift",
                                new RouteCalls.Count(4, 2, 2),
                                new RouteCalls.Count(2, 2, 0)),
                        new RouteCalls(
                                "manager",
                                new RouteCalls.Count(3, 1, 2),
                                new RouteCalls.Count(1, 1, 0)));
    }

    @Test
    void machines_are_told_of_in_the_order_of_time() {
        List<Outcome> late =
                List.of(change(1, AlarmEvent.RAISED, AlarmState.UNACKNOWLEDGED, WARNING, 300));
        List<Outcome> early =
                List.of(
                        change(1, AlarmEvent.RAISED, AlarmState.UNACKNOWLEDGED, WARNING, 10),
                        change(2, AlarmEvent.ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, WARNING, 20));

        List<RouteCalls> calls =
                RouteCalls.of(
                        site(route("shift", Optional.empty())),
                        List.of(
                                backtest("jet-1", late, List.of()),
                                backtest("jet-2", early, List.of())));

        assertThat(calls.get(0).before()).isEqualTo(new RouteCalls.Count(5, 5, 0));
        assertThat(calls.get(0).after()).isEqualTo(RouteCalls.Count.NONE);
    }

    /** Eight hours and one minute. */
    private static Backtest backtest(String machine, List<Outcome> before, List<Outcome> after) {
        return new Backtest(
                machine,
                0,
                481 * MINUTE,
                1,
                List.of(),
                new Backtest.Heard(before, after),
                new Backtest.Runs(RunCount.NONE, RunCount.NONE));
    }

    private static Outcome change(
            int revision, AlarmEvent event, AlarmState to, Grade grade, long minute) {
        long at = minute * MINUTE;
        Finding finding =
                new Finding(
                        Rule.RATIO,
                        Channel.BOOSTED,
                        grade,
                        at,
                        at,
                        Finding.Quantity.RATIO,
                        1.62,
                        2.0,
                        Finding.Sense.AT_LEAST,
                        Figure.of(44.5),
                        Figure.of(72.1),
                        List.of());
        String id = "ratio." + minute / 200;
        return new Outcome.AlarmChanged(
                new AlarmChange(id, revision, event, AlarmState.NORMAL, to, at, at, finding, ""));
    }

    private static Optional<Duration> minutes(long minutes) {
        return Optional.of(Duration.ofMinutes(minutes));
    }

    private static RouteSettings route(String name, Optional<Duration> escalateAfter) {
        RoutePolicy policy =
                new RoutePolicy(
                        Optional.empty(),
                        escalateAfter,
                        minutes(60),
                        OptionalInt.empty(),
                        Optional.empty());
        return new RouteSettings.Log(
                name, new RouteScope(Grade.ADVISORY, List.of(), Duration.ofHours(72), policy));
    }

    private static Site site(RouteSettings... routes) {
        return new Site(
                "Boatyard",
                ZoneId.of("UTC"),
                Language.ENGLISH,
                PressureUnit.PSI,
                new StoreSettings(Path.of("."), Duration.ofDays(90)),
                List.of(),
                List.of(new MachineSettings("jet-1", List.of(), Limits.DEFAULTS)),
                List.of(routes),
                Optional.empty(),
                Optional.empty(),
                "0".repeat(64),
                "");
    }
}
