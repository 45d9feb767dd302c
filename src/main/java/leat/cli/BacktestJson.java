package leat.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import leat.replay.AlarmCall;
import leat.replay.Backtest;
import leat.replay.WeekCount;
import leat.report.Json;
import leat.rule.Limit;
import leat.rule.Limits;

/**
 * A backtest as one JSON document, for scripts. Limits are psi, seconds, psi per second or plain
 * numbers; times are UTC, weeks those of ISO 8601 in the site's zone.
 */
final class BacktestJson {

    private static final String SCHEMA = "leat.backtest/1";

    private BacktestJson() {}

    static String of(
            List<BacktestCommand.Judged> judged,
            List<RouteCalls> routes,
            Map<Limit, Double> changes,
            ZoneId zone) {
        ObjectNode document = Json.object();
        document.put("schema", SCHEMA);
        document.put("zone", zone.getId());
        limits(document.putObject("set"), changes);
        List<Backtest> all = judged.stream().map(BacktestCommand.Judged::result).toList();
        document.put("alarms_before", all.stream().mapToLong(Backtest::callsBefore).sum());
        document.put("alarms_after", all.stream().mapToLong(Backtest::callsAfter).sum());
        weeks(document.putArray("weeks"), all, zone);
        ArrayNode machines = document.putArray("machines");
        judged.forEach(machine -> machine(machines.addObject(), machine, zone));
        ArrayNode changed = document.putArray("changes");
        for (Backtest backtest : all) {
            backtest.changes().forEach(c -> change(changed.addObject(), backtest.machine(), c));
        }
        ArrayNode called = document.putArray("routes");
        routes.forEach(route -> route(called.addObject(), route));
        return Json.print(document);
    }

    private static void route(ObjectNode json, RouteCalls calls) {
        json.put("route", calls.route());
        count(json.putObject("before"), calls.before());
        count(json.putObject("after"), calls.after());
    }

    private static void count(ObjectNode json, RouteCalls.Count count) {
        json.put("calls", count.all());
        json.put("warning", count.warning());
        json.put("critical", count.critical());
    }

    private static void machine(ObjectNode json, BacktestCommand.Judged judged, ZoneId zone) {
        Backtest backtest = judged.result();
        json.put("machine", backtest.machine());
        json.put("from", Json.time(backtest.fromMicros()));
        json.put("to", Json.time(backtest.toMicros()));
        json.put("watched_s", backtest.watchedSeconds());
        json.put("limits_from", word(judged.plan().source()));
        limits(json.putObject("limits_before"), judged.plan().before());
        limits(json.putObject("limits_after"), judged.plan().after());
        json.put("configurations", judged.plan().configs());
        json.put("alarms_before", backtest.callsBefore());
        json.put("alarms_after", backtest.callsAfter());
        weeks(json.putArray("weeks"), List.of(backtest), zone);
    }

    /** Those that differ from the defaults. */
    private static void limits(ObjectNode json, Limits limits) {
        limits(json, limits.changed());
    }

    private static void limits(ObjectNode json, Map<Limit, Double> limits) {
        new TreeMap<>(limits).forEach((limit, value) -> json.put(limit.key(), value));
    }

    private static void weeks(ArrayNode json, List<Backtest> backtests, ZoneId zone) {
        for (WeekCount count : WeekCount.of(backtests, zone)) {
            json.addObject()
                    .put("week", count.week())
                    .put("monday", count.monday().toString())
                    .put("rule", count.rule().key())
                    .put("grade", word(count.grade()))
                    .put("before", count.before())
                    .put("after", count.after());
        }
    }

    private static void change(ObjectNode json, String machine, Backtest.Change change) {
        json.put("machine", machine);
        json.put("kind", word(change.kind()));
        json.put("rule", change.either().gravest().rule().key());
        json.put("channel", change.either().gravest().channel().key());
        call(json, "before", change.before());
        call(json, "after", change.after());
    }

    private static void call(ObjectNode json, String name, Optional<AlarmCall> call) {
        if (call.isEmpty()) {
            json.putNull(name);
            return;
        }
        ObjectNode node = json.putObject(name);
        node.put("grade", word(call.get().grade()));
        node.put("raised_at", Json.time(call.get().raisedAtMicros()));
        call.get()
                .returnedAtMicros()
                .ifPresentOrElse(
                        at -> node.put("returned_at", Json.time(at)),
                        () -> node.putNull("returned_at"));
        node.put("measured", call.get().gravest().measured());
        node.put("limit", call.get().gravest().limit());
    }

    private static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
    }
}
