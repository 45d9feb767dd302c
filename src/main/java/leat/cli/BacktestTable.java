package leat.cli;

import static java.util.Objects.requireNonNull;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import leat.config.LimitWords;
import leat.replay.AlarmCall;
import leat.replay.Backtest;
import leat.replay.RunCount;
import leat.replay.WeekCount;
import leat.report.Fold;
import leat.report.Shown;
import leat.report.TextTable;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.signal.Keyword;
import leat.words.BriefTimes;
import leat.words.FindingWords;

/**
 * A backtest as a person reads it: what was judged by what, then of each machine the alarms that
 * would have come, gone or moved, and the counts per week.
 *
 * @param shown the site's zone and unit
 * @param changes the limits that were changed
 * @param columns of the terminal
 */
record BacktestTable(Shown shown, Map<Limit, Double> changes, int columns) {

    private static final double SECONDS_PER_WEEK = 7 * 86_400;
    private static final long DAY_MICROS = 86_400_000_000L;
    private static final String LINE_END = System.lineSeparator();
    private static final String AS_IT_IS = "cli.backtest.as-it-is";

    BacktestTable {
        requireNonNull(shown, "shown");
        changes = Map.copyOf(changes);
    }

    /**
     * @param routes how often each would have called; empty where no site is known
     * @param sinceMicros from when on it was asked for
     */
    String of(List<JudgedAnew> judged, List<RouteCalls> routes, long sinceMicros) {
        StringBuilder text = new StringBuilder();
        for (JudgedAnew machine : judged) {
            if (text.length() > 0) {
                text.append(LINE_END);
            }
            machine(text, machine.plan(), machine.result(), sinceMicros);
        }
        if (judged.size() > 1) {
            text.append(LINE_END);
            text.append(shown.say("cli.backtest.all", Integer.toString(judged.size())));
            text.append(LINE_END);
            List<Backtest> all = judged.stream().map(JudgedAnew::result).toList();
            weeks(text, all);
        }
        if (!routes.isEmpty()) {
            text.append(LINE_END).append(calls(routes).within(columns));
        }
        return text.toString();
    }

    private TextTable calls(List<RouteCalls> routes) {
        TextTable table =
                new TextTable()
                        .soft(shown.say("cli.backtest.route"), 8)
                        .firm(shown.say("cli.backtest.calls"))
                        .firm(shown.findings().grade(Grade.WARNING))
                        .firm(shown.findings().grade(Grade.CRITICAL))
                        .firm(shown.say("cli.backtest.changed"))
                        .firm(shown.findings().grade(Grade.WARNING))
                        .firm(shown.findings().grade(Grade.CRITICAL));
        for (RouteCalls calls : routes) {
            table.row(
                    calls.route(),
                    Long.toString(calls.before().all()),
                    Long.toString(calls.before().warning()),
                    Long.toString(calls.before().critical()),
                    Long.toString(calls.after().all()),
                    Long.toString(calls.after().warning()),
                    Long.toString(calls.after().critical()));
        }
        return table;
    }

    private void machine(
            StringBuilder text, BacktestPlan plan, Backtest backtest, long sinceMicros) {
        say(
                text,
                shown.say(
                        "cli.backtest.span",
                        backtest.machine(),
                        shown.time(backtest.fromMicros()),
                        shown.time(backtest.toMicros()),
                        duration(backtest.watchedSeconds())));
        say(
                text,
                shown.say(
                        plan.configs() == 1 ? "cli.backtest.by" : "cli.backtest.by-several",
                        shown.say("cli.backtest.source." + Keyword.of(plan.source())),
                        Integer.toString(plan.configs())));
        say(text, changed(plan));
        if (sinceMicros != Long.MIN_VALUE && backtest.fromMicros() - sinceMicros > DAY_MICROS) {
            say(text, shown.say("cli.backtest.not-kept"));
        }
        say(text, runs(backtest.runs()));
        text.append(LINE_END);
        changes(text, backtest);
        weeks(text, List.of(backtest));
    }

    private void say(StringBuilder text, String words) {
        text.append(Fold.of(columns, words));
    }

    private String runs(Backtest.Runs runs) {
        String before = words(runs.before());
        String after = words(runs.after());
        return before.equals(after)
                ? shown.say("cli.backtest.either", before)
                : shown.say("cli.backtest.differ", before, after);
    }

    private String words(RunCount count) {
        return shown.say(
                "cli.backtest.runs",
                count.starts(),
                count.good(),
                count.notGood(),
                count.notJudged());
    }

    private String changed(BacktestPlan plan) {
        String all =
                new TreeMap<>(changes)
                        .keySet().stream()
                                .map(
                                        limit ->
                                                shown.say(
                                                        "cli.backtest.change",
                                                        limit.key(),
                                                        print(limit, plan.before().get(limit)),
                                                        print(limit, plan.after().get(limit))))
                                .collect(Collectors.joining(", "));
        return shown.say(
                plan.before().changed().equals(plan.after().changed())
                        ? "cli.backtest.unchanged"
                        : "cli.backtest.changes",
                all);
    }

    private String print(Limit limit, double value) {
        return limit.dimension() == Limit.Dimension.TIME
                ? BigDecimal.valueOf(value).stripTrailingZeros().toPlainString() + " s"
                : LimitWords.print(limit, value, shown.unit());
    }

    /** In the largest unit that it fills. */
    private String duration(long seconds) {
        if (seconds >= SECONDS_PER_WEEK) {
            return shown.say("cli.backtest.weeks", one(seconds / SECONDS_PER_WEEK));
        }
        if (seconds >= 86_400) {
            return shown.say("cli.backtest.days", one(seconds / 86_400.0));
        }
        return seconds >= 3_600 ? one(seconds / 3_600.0) + " h" : one(seconds / 60.0) + " min";
    }

    private String one(double value) {
        return shown.numbers().number(value, 1);
    }

    private void changes(StringBuilder text, Backtest backtest) {
        BriefTimes brief = BriefTimes.of(shown.zone(), Who.nowMicros());
        TextTable table =
                new TextTable(shown.say("cli.column.what"))
                        .soft(shown.say(AS_IT_IS), 25)
                        .soft(shown.say("cli.backtest.under-changed"), 25)
                        .soft(shown.say("cli.backtest.alarm"), 16)
                        .spare(shown.say("cli.backtest.measured-then"))
                        .spare(shown.say("cli.backtest.exactly-now"))
                        .spare(shown.say("cli.backtest.exactly-then"));
        for (Backtest.Change change : backtest.changes()) {
            if (change.kind() != Backtest.Effect.SAME) {
                Finding finding = change.either().gravest();
                FindingWords words = shown.findings();
                table.row(
                        shown.say("cli.backtest.effect." + Keyword.of(change.kind())),
                        words(change.before(), brief),
                        words(change.after(), brief),
                        words.what(finding),
                        words.measured(finding) + " (" + words.limit(finding) + ")",
                        exactly(change.before()),
                        exactly(change.after()));
            }
        }
        if (backtest.changes().isEmpty()) {
            text.append(shown.say("cli.backtest.no-alarm"));
        } else if (table.isEmpty()) {
            text.append(shown.say("cli.backtest.all-same"));
        } else {
            text.append(table.within(columns));
            text.append(tally(backtest));
        }
        text.append(LINE_END);
    }

    private String tally(Backtest backtest) {
        return shown.say(
                "cli.backtest.tally",
                count(backtest, Backtest.Effect.NEW),
                count(backtest, Backtest.Effect.GONE),
                count(backtest, Backtest.Effect.MOVED),
                count(backtest, Backtest.Effect.SAME));
    }

    private static long count(Backtest backtest, Backtest.Effect kind) {
        return backtest.changes().stream().filter(c -> c.kind() == kind).count();
    }

    private String words(Optional<AlarmCall> call, BriefTimes brief) {
        return call.map(
                        c ->
                                shown.findings().grade(c.grade())
                                        + " "
                                        + brief.time(c.raisedAtMicros()))
                .orElse("-");
    }

    private String exactly(Optional<AlarmCall> call) {
        return call.map(c -> shown.time(c.raisedAtMicros())).orElse("-");
    }

    private void weeks(StringBuilder text, List<Backtest> backtests) {
        List<WeekCount> weeks = WeekCount.of(backtests, shown.zone());
        if (weeks.isEmpty()) {
            return;
        }
        TextTable table =
                new TextTable(shown.say("cli.backtest.week"), shown.say("cli.backtest.monday"))
                        .soft(shown.say("cli.backtest.alarm"), 16)
                        .firm(shown.say("cli.column.grade"))
                        .firm(shown.say(AS_IT_IS))
                        .firm(shown.say("cli.backtest.changed"));
        for (WeekCount count : weeks) {
            table.row(
                    count.week(),
                    count.monday().toString(),
                    shown.findings().title(count.rule(), count.grade()),
                    shown.findings().grade(count.grade()),
                    Integer.toString(count.before()),
                    Integer.toString(count.after()));
        }
        long before = backtests.stream().mapToLong(Backtest::callsBefore).sum();
        long after = backtests.stream().mapToLong(Backtest::callsAfter).sum();
        table.row(
                shown.say("cli.backtest.sum"),
                "",
                "",
                "",
                Long.toString(before),
                Long.toString(after));
        text.append(LINE_END).append(table.within(columns));
        double watched =
                backtests.stream().mapToLong(Backtest::watchedSeconds).sum() / SECONDS_PER_WEEK;
        if (watched >= 1) {
            text.append(
                    shown.say("cli.backtest.a-week", one(before / watched), one(after / watched)));
            text.append(LINE_END);
        }
    }
}
