package leat.cli;

import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmHealth;
import leat.json.IfThere;
import leat.json.Published;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.rule.Grade;
import leat.signal.Keyword;
import leat.store.StoreReader;
import leat.store.StoredAlarm;

/**
 * The performance figures of the alarms, each beside its target. The targets are those of
 * ANSI/ISA-18.2-2016, clause 16.4 (IEC 62682 has the same idea), read at second hand; where two
 * copies differ, the stricter one stands.
 */
final class HealthSheet {

    private final AlarmHealth health;
    private final Shown shown;
    private final List<HealthLine> lines;

    private HealthSheet(AlarmHealth health, Shown shown) {
        this.health = health;
        this.shown = shown;
        lines = HealthLine.all(health, shown);
    }

    static HealthSheet of(StoreReader reader, Shown shown, String since) {
        Instant now = Instant.now();
        long to = Who.nowMicros();
        long asked = new TimeWords(shown.zone(), now).micros("--since", since);
        long from = Math.min(to, Math.max(asked, reader.firstRunMicros().orElse(to)));
        List<AlarmChange> changes = changes(reader.alarmChangesSince(from));
        List<AlarmChange> standing = changes(reader.standingAlarms());
        return new HealthSheet(AlarmHealth.of(changes, standing, from, to), shown);
    }

    private static List<AlarmChange> changes(List<StoredAlarm> alarms) {
        return alarms.stream().map(StoredAlarm::change).toList();
    }

    void print(TableWidth width) {
        width.say(
                shown.say(
                        "cli.health.heading",
                        shown.time(health.fromMicros()),
                        shown.time(health.toMicros()),
                        shown.numbers().number(health.days(), 1),
                        health.calls()));
        TextTable table =
                new TextTable(
                                shown.say("cli.health.figure"),
                                shown.say("cli.health.here"),
                                shown.say("cli.health.target"),
                                shown.say("cli.column.verdict"))
                        .spare(shown.say("cli.health.from"));
        for (HealthLine line : lines) {
            table.row(
                    line.title(),
                    line.shown(),
                    line.target(),
                    line.target().equals("-") ? "-" : words(line.verdict()),
                    line.source());
        }
        for (Grade grade : Grade.values()) {
            table.row(
                    shown.say("cli.health.share", shown.findings().grade(grade)),
                    HealthLine.percent(health.share(grade), shown),
                    target(grade),
                    "-",
                    HealthLine.STANDARD);
        }
        table.row(
                shown.say("cli.health.share-of-ten"),
                HealthLine.percent(health.topTenShare(), shown),
                shown.say("cli.health.one-to-five"),
                "-",
                HealthLine.STANDARD);
        width.print(table);
        width.say(shown.say("cli.health.meant"));
        width.say(shown.say("cli.health.quiet"));
        if (!health.topTen().isEmpty()) {
            TextTable top =
                    new TextTable()
                            .soft(shown.say("cli.health.frequent"), 20)
                            .firm(shown.say("cli.health.called"));
            health.topTen().forEach(t -> top.row(t.alarm(), Long.toString(t.calls())));
            width.print(top);
        }
    }

    /** Low, medium and high of the standard. */
    private String target(Grade grade) {
        return switch (grade) {
            case ADVISORY -> shown.say("cli.health.about", "80 %");
            case WARNING -> shown.say("cli.health.about", "15 %");
            case CRITICAL -> shown.say("cli.health.about", "5 %");
        };
    }

    /** How a figure stands to its target. */
    enum Verdict {
        GOOD,
        BEARABLE,
        TOO_MANY
    }

    private String words(Verdict verdict) {
        return shown.say("cli.health.verdict." + Keyword.of(verdict));
    }

    /** The document. */
    @Published("leat.health/1")
    record Told(
            long fromMicros,
            long toMicros,
            double days,
            long calls,
            String standard,
            List<Figure> figures,
            Map<Grade, Double> shareOfGrade,
            double shareOfTopTen,
            List<AlarmHealth.Frequent> topTen) {}

    /** One figure; without a target it has no verdict. */
    record Figure(
            String name,
            double value,
            @IfThere OptionalDouble acceptable,
            @IfThere OptionalDouble atMost,
            @IfThere Optional<Verdict> verdict,
            @IfThere Optional<String> source) {}

    private static Figure figure(HealthLine line) {
        boolean judged = !line.target().equals("-");
        return new Figure(
                line.name(),
                line.here(),
                judged ? OptionalDouble.of(line.acceptable()) : OptionalDouble.empty(),
                judged ? OptionalDouble.of(line.most()) : OptionalDouble.empty(),
                Optional.of(line.verdict()).filter(word -> judged),
                Optional.of(line.source()).filter(word -> judged));
    }

    String json() {
        Map<Grade, Double> shares = new EnumMap<>(Grade.class);
        for (Grade grade : Grade.values()) {
            shares.put(grade, health.share(grade));
        }
        return Json.print(
                new Told(
                        health.fromMicros(),
                        health.toMicros(),
                        health.days(),
                        health.calls(),
                        HealthLine.STANDARD,
                        lines.stream().map(HealthSheet::figure).toList(),
                        shares,
                        health.topTenShare(),
                        health.topTen()));
    }
}
