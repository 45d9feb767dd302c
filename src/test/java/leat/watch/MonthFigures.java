package leat.watch;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import leat.alarm.AlarmHealth;
import leat.report.Json;
import leat.rule.Grade;
import leat.service.SiteRun.Delivered;
import leat.store.StoredStartup;

/**
 * What is left of a month that was played.
 *
 * @param name which it was
 * @param health the project's own figures
 * @param sql the same, counted by SQL
 * @param grave every alarm that was a WARNING or CRITICAL, active, and not held back
 * @param staleEachMidnight alarms that had stood for more than a day, at the end of each day
 * @param delivered what people got, by route
 * @param startups what was measured, by machine, oldest first
 * @param planned when each machine was on, in true time, in order
 */
record MonthFigures(
        String name,
        AlarmHealth health,
        CountedBySql sql,
        List<String> grave,
        List<Long> staleEachMidnight,
        Map<String, List<Delivered>> delivered,
        Map<String, List<StoredStartup>> startups,
        Map<String, List<MonthPlan.Run>> planned) {

    @Override
    public String toString() {
        return name;
    }

    /** What a route brought, but for the daily report. */
    List<Delivered> alarms(String route) {
        return delivered.get(route).stream()
                .filter(each -> !each.message().event().equals("all-is-well"))
                .toList();
    }

    /** The most messages, the daily report among them, that one route brought in ten minutes. */
    long mostIn10Min(String route) {
        return delivered.get(route).stream()
                .collect(
                        Collectors.groupingBy(
                                each -> each.atMicros() / 600_000_000, Collectors.counting()))
                .values()
                .stream()
                .mapToLong(n -> n)
                .max()
                .orElse(0);
    }

    /** Lines for a person who plays months by hand. */
    String text() {
        StringBuilder text = new StringBuilder();
        text.append(
                String.format(
                        Locale.ROOT,
                        "%s: %.1f days, %d calls (%.2f a day; advisory %d, warning %d, critical %d), most in"
                                + " 10 min %d, chattering %d, floods %d, stale at most %d%n",
                        name,
                        health.days(),
                        health.calls(),
                        health.callsPerDay(),
                        health.byGrade().get(Grade.ADVISORY),
                        health.byGrade().get(Grade.WARNING),
                        health.byGrade().get(Grade.CRITICAL),
                        health.mostIn10Min(),
                        health.chattering(),
                        health.floods(),
                        staleEachMidnight.stream().mapToLong(n -> n).max().orElse(0)));
        health.topTen()
                .forEach(
                        t ->
                                text.append("  ")
                                        .append(t.calls())
                                        .append(" ")
                                        .append(t.alarm())
                                        .append('\n'));
        delivered.forEach(
                (route, all) ->
                        text.append(
                                String.format(
                                        Locale.ROOT,
                                        "  %s: %d messages, %d about alarms, most in 10 min %d%n",
                                        route,
                                        all.size(),
                                        alarms(route).size(),
                                        mostIn10Min(route))));
        alarms("hall")
                .forEach(
                        each ->
                                text.append(
                                        String.format(
                                                "    %s %s%n",
                                                Instant.ofEpochSecond(each.atMicros() / 1_000_000),
                                                each.message().subject())));
        startups.forEach(
                (machine, all) ->
                        text.append(
                                String.format(
                                        Locale.ROOT,
                                        "  %s: %d starts planned, %d measured, not good: %s%n",
                                        machine,
                                        planned.get(machine).size(),
                                        all.size(),
                                        all.stream()
                                                .map(
                                                        s ->
                                                                s.verdict().outcome()
                                                                        + " "
                                                                        + Json.IN_PSI.note(
                                                                                s.verdict()))
                                                .filter(words -> !words.startsWith("GOOD"))
                                                .toList())));
        return text.toString();
    }
}
