package leat.cli;

import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;
import leat.json.Published;
import leat.replay.AlarmCall;
import leat.replay.Backtest;
import leat.replay.RunCount;
import leat.replay.WeekCount;
import leat.report.Json;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.rule.Rule;
import leat.signal.Channel;

/**
 * A backtest as one JSON document, for scripts. Limits are psi, seconds, psi per second or plain
 * numbers; times are UTC, weeks those of ISO 8601 in the site's zone.
 */
final class BacktestJson {

    private BacktestJson() {}

    /** The document. */
    @Published("leat.backtest/1")
    record Told(
            String zone,
            Map<Limit, Double> set,
            long alarmsBefore,
            long alarmsAfter,
            List<Week> weeks,
            List<Machine> machines,
            List<Change> changes,
            List<Route> routes) {}

    /** What would have been called in one week. */
    record Week(String week, String monday, Rule rule, Grade grade, int before, int after) {}

    /** One machine; limits are those that differ from the defaults. */
    record Machine(
            String machine,
            long fromMicros,
            long toMicros,
            long watchedSeconds,
            BacktestPlan.Source limitsFrom,
            Map<Limit, Double> limitsBefore,
            Map<Limit, Double> limitsAfter,
            int configurations,
            long alarmsBefore,
            long alarmsAfter,
            RunCount runsBefore,
            RunCount runsAfter,
            List<Week> weeks) {}

    /** One call, before and after. */
    record Change(
            String machine,
            Backtest.Effect kind,
            Rule rule,
            Channel channel,
            Optional<Call> before,
            Optional<Call> after) {}

    /** One call. */
    record Call(
            Grade grade,
            long raisedAtMicros,
            OptionalLong returnedAtMicros,
            double measured,
            double limit) {}

    /** What one route would have called. */
    record Route(String route, Calls before, Calls after) {

        static Route of(RouteCalls calls) {
            return new Route(calls.route(), Calls.of(calls.before()), Calls.of(calls.after()));
        }
    }

    /** How often somebody would have been called. */
    record Calls(long calls, long warning, long critical) {

        static Calls of(RouteCalls.Count count) {
            return new Calls(count.all(), count.warning(), count.critical());
        }
    }

    static String of(
            List<JudgedAnew> judged,
            List<RouteCalls> routes,
            Map<Limit, Double> changes,
            ZoneId zone) {
        List<Backtest> all = judged.stream().map(JudgedAnew::result).toList();
        return Json.print(
                new Told(
                        zone.getId(),
                        new TreeMap<>(changes),
                        all.stream().mapToLong(Backtest::callsBefore).sum(),
                        all.stream().mapToLong(Backtest::callsAfter).sum(),
                        weeks(all, zone),
                        judged.stream().map(each -> machine(each, zone)).toList(),
                        all.stream()
                                .flatMap(
                                        backtest ->
                                                backtest.changes().stream()
                                                        .map(c -> change(backtest.machine(), c)))
                                .toList(),
                        routes.stream().map(Route::of).toList()));
    }

    private static Machine machine(JudgedAnew judged, ZoneId zone) {
        Backtest backtest = judged.result();
        return new Machine(
                backtest.machine(),
                backtest.fromMicros(),
                backtest.toMicros(),
                backtest.watchedSeconds(),
                judged.plan().source(),
                new TreeMap<>(judged.plan().before().changed()),
                new TreeMap<>(judged.plan().after().changed()),
                judged.plan().configs(),
                backtest.callsBefore(),
                backtest.callsAfter(),
                backtest.runs().before(),
                backtest.runs().after(),
                weeks(List.of(backtest), zone));
    }

    private static List<Week> weeks(List<Backtest> backtests, ZoneId zone) {
        return WeekCount.of(backtests, zone).stream()
                .map(
                        count ->
                                new Week(
                                        count.week(),
                                        count.monday().toString(),
                                        count.rule(),
                                        count.grade(),
                                        count.before(),
                                        count.after()))
                .toList();
    }

    private static Change change(String machine, Backtest.Change change) {
        return new Change(
                machine,
                change.kind(),
                change.either().gravest().rule(),
                change.either().gravest().channel(),
                change.before().map(BacktestJson::call),
                change.after().map(BacktestJson::call));
    }

    private static Call call(AlarmCall call) {
        return new Call(
                call.grade(),
                call.raisedAtMicros(),
                call.returnedAtMicros(),
                call.gravest().measured(),
                call.gravest().limit());
    }
}
