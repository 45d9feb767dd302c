package leat.cli;

import static java.util.Objects.requireNonNull;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
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
import leat.rule.Limit;
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
            text.append(LINE_END).append("All ").append(judged.size()).append(" machines");
            text.append(LINE_END);
            List<Backtest> all = judged.stream().map(JudgedAnew::result).toList();
            weeks(text, all);
        }
        if (!routes.isEmpty()) {
            text.append(LINE_END).append(calls(routes).within(columns));
        }
        return text.toString();
    }

    private static TextTable calls(List<RouteCalls> routes) {
        TextTable table =
                new TextTable()
                        .soft("route", 8)
                        .firm("calls as it is")
                        .firm("WARNING")
                        .firm("CRITICAL")
                        .firm("changed")
                        .firm("WARNING")
                        .firm("CRITICAL");
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
                String.format(
                        Locale.ROOT,
                        "%s: %s to %s, of which leat watched %s",
                        backtest.machine(),
                        shown.time(backtest.fromMicros()),
                        shown.time(backtest.toMicros()),
                        duration(backtest.watchedSeconds())));
        say(
                text,
                "As it is: by the limits of "
                        + plan.source().words()
                        + (plan.configs() == 1
                                ? "."
                                : "; in that time leat ran under "
                                        + plan.configs()
                                        + " configurations. leat alarms --all tells what was"
                                        + " called then."));
        say(text, "Changed: " + changed(plan));
        if (sinceMicros != Long.MIN_VALUE && backtest.fromMicros() - sinceMicros > DAY_MICROS) {
            say(text, "Before that nothing is kept: see store.keep_samples in site.yaml.");
        }
        say(text, runs(backtest.runs()));
        text.append(LINE_END);
        changes(text, backtest);
        weeks(text, List.of(backtest));
    }

    private void say(StringBuilder text, String words) {
        text.append(Fold.of(columns, words));
    }

    private static String runs(Backtest.Runs runs) {
        String before = words(runs.before());
        String after = words(runs.after());
        return before.equals(after)
                ? "Either way: " + before + "."
                : "As it is: " + before + "; changed: " + after + ".";
    }

    private static String words(RunCount count) {
        return String.format(
                Locale.ROOT,
                "%s, runs: %d good, %d not good, %d not judged",
                count.starts() == 1 ? "1 start" : count.starts() + " starts",
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
                                                limit.key()
                                                        + " from "
                                                        + print(limit, plan.before().get(limit))
                                                        + " to "
                                                        + print(limit, plan.after().get(limit)))
                                .collect(Collectors.joining(", "));
        return plan.before().changed().equals(plan.after().changed())
                ? all + ": these are the limits as they are."
                : all + ".";
    }

    private String print(Limit limit, double value) {
        return limit.dimension() == Limit.Dimension.TIME
                ? BigDecimal.valueOf(value).stripTrailingZeros().toPlainString() + " s"
                : LimitWords.print(limit, value, shown.unit());
    }

    /** In the largest unit that it fills. */
    private static String duration(long seconds) {
        if (seconds >= SECONDS_PER_WEEK) {
            return String.format(Locale.ROOT, "%.1f weeks", seconds / SECONDS_PER_WEEK);
        }
        if (seconds >= 86_400) {
            return String.format(Locale.ROOT, "%.1f days", seconds / 86_400.0);
        }
        return seconds >= 3_600
                ? String.format(Locale.ROOT, "%.1f h", seconds / 3_600.0)
                : String.format(Locale.ROOT, "%.1f min", seconds / 60.0);
    }

    private void changes(StringBuilder text, Backtest backtest) {
        BriefTimes brief = BriefTimes.of(shown.zone(), Who.nowMicros());
        TextTable table =
                new TextTable("what")
                        .soft("as it is", 25)
                        .soft("under the changed limits", 25)
                        .soft("alarm", 16)
                        .spare("measured then (limit)")
                        .spare("exactly as it is")
                        .spare("exactly then");
        for (Backtest.Change change : backtest.changes()) {
            if (change.kind() != Backtest.Effect.SAME) {
                Finding finding = change.either().gravest();
                FindingWords words = shown.findings();
                table.row(
                        word(change.kind()),
                        words(change.before(), brief),
                        words(change.after(), brief),
                        words.what(finding),
                        words.measured(finding) + " (" + words.limit(finding) + ")",
                        exactly(change.before()),
                        exactly(change.after()));
            }
        }
        if (backtest.changes().isEmpty()) {
            text.append("No alarm, neither as it is nor under the changed limits.");
        } else if (table.isEmpty()) {
            text.append("Every alarm would have come as it is.");
        } else {
            text.append(table.within(columns));
            text.append(tally(backtest));
        }
        text.append(LINE_END);
    }

    private static String word(Backtest.Effect kind) {
        return switch (kind) {
            case SAME -> "same";
            case MOVED -> "moved";
            case GONE -> "gone";
            case NEW -> "new";
        };
    }

    private static String tally(Backtest backtest) {
        return String.format(
                Locale.ROOT,
                "%d new, %d gone, %d moved, %d the same.",
                count(backtest, Backtest.Effect.NEW),
                count(backtest, Backtest.Effect.GONE),
                count(backtest, Backtest.Effect.MOVED),
                count(backtest, Backtest.Effect.SAME));
    }

    private static long count(Backtest backtest, Backtest.Effect kind) {
        return backtest.changes().stream().filter(c -> c.kind() == kind).count();
    }

    private static String words(Optional<AlarmCall> call, BriefTimes brief) {
        return call.map(c -> c.grade() + " " + brief.time(c.raisedAtMicros())).orElse("-");
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
                new TextTable("week", "from Monday")
                        .soft("alarm", 16)
                        .firm("grade")
                        .firm("as it is")
                        .firm("changed");
        for (WeekCount count : weeks) {
            table.row(
                    count.week(),
                    count.monday().toString(),
                    shown.findings().title(count.rule(), count.grade()),
                    count.grade().name(),
                    Integer.toString(count.before()),
                    Integer.toString(count.after()));
        }
        long before = backtests.stream().mapToLong(Backtest::callsBefore).sum();
        long after = backtests.stream().mapToLong(Backtest::callsAfter).sum();
        table.row("all", "", "", "", Long.toString(before), Long.toString(after));
        text.append(LINE_END).append(table.within(columns));
        double watched =
                backtests.stream().mapToLong(Backtest::watchedSeconds).sum() / SECONDS_PER_WEEK;
        if (watched >= 1) {
            text.append(
                    String.format(
                            Locale.ROOT,
                            "%.1f a week of watching as it is, %.1f under the changed limits.%n",
                            before / watched,
                            after / watched));
        }
    }
}
