package leat.cli;

import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
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
import leat.store.StoreReader;
import leat.store.StoredAlarm;

/**
 * The performance figures of the alarms, each beside its target. The targets are those of
 * ANSI/ISA-18.2-2016, clause 16.4 (IEC 62682 has the same idea), read at second hand; where two
 * copies differ, the stricter one stands.
 */
final class HealthSheet {

    private static final String STANDARD = "ANSI/ISA-18.2-2016, 16.4";
    private static final double SLACK = 1e-9;

    /**
     * One figure.
     *
     * @param name as in JSON
     * @param title for people
     * @param here what it is here
     * @param shown with its unit
     * @param acceptable up to here it is very likely acceptable
     * @param most up to here it can be managed
     */
    private record Line(
            String name,
            String title,
            double here,
            String shown,
            double acceptable,
            double most,
            String target,
            String source) {

        Verdict verdict() {
            if (here <= acceptable + SLACK) {
                return Verdict.GOOD;
            }
            return here <= most + SLACK ? Verdict.BEARABLE : Verdict.TOO_MANY;
        }
    }

    private final AlarmHealth health;
    private final Shown shown;
    private final List<Line> lines;

    private HealthSheet(AlarmHealth health, Shown shown) {
        this.health = health;
        this.shown = shown;
        lines = lines(health);
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

    private static List<Line> lines(AlarmHealth h) {
        return List.of(
                count("alarms_per_day", "alarms a day", h.callsPerDay(), 144, 288),
                count("alarms_per_10_min", "alarms in 10 min", h.callsPer10Min(), 1, 2),
                count("most_in_10_min", "most in one 10 min", h.mostIn10Min(), 10, 10),
                share("periods_above_10", "10 min with more than 10", h.crowded10Min(), 0.01),
                share("hours_above_30", "hours with more than 30", h.crowdedHours(), 0.01),
                count("floods", "floods begun", h.floods(), 0, Double.POSITIVE_INFINITY, "-", ""),
                share("time_in_flood", "time in flood", h.floodShare(), 0.01),
                count("chattering", "alarms that come and go", h.chattering(), 0, 0),
                count("stale", "standing over 24 h now", h.stale(), 4, 4, "under 5", STANDARD),
                count(
                        "held",
                        "shelved or held back now",
                        h.held(),
                        29,
                        29,
                        "under 30 shelved",
                        "EEMUA 191"));
    }

    private static Line count(String name, String title, double here, double good, double most) {
        String target = plain(good) + (most > good ? ", at most " + plain(most) : "");
        return count(name, title, here, good, most, target, STANDARD);
    }

    private static Line count(
            String name,
            String title,
            double here,
            double good,
            double most,
            String target,
            String source) {
        return new Line(name, title, here, plain(here), good, most, target, source);
    }

    private static Line share(String name, String title, double here, double most) {
        String target = "under " + percent(most);
        return new Line(name, title, here, percent(here), most, most, target, STANDARD);
    }

    private static String plain(double value) {
        return value == Math.rint(value)
                ? Long.toString((long) value)
                : String.format(Locale.ROOT, "%.2f", value);
    }

    private static String percent(double share) {
        return plain(100 * share) + " %";
    }

    void print(TableWidth width) {
        width.say(
                String.format(
                        Locale.ROOT,
                        "Alarms from %s to %s (%.1f days), all machines: somebody was called %d"
                                + " times.",
                        shown.time(health.fromMicros()),
                        shown.time(health.toMicros()),
                        health.days(),
                        health.calls()));
        TextTable table = new TextTable("figure", "here", "target", "verdict").spare("from");
        for (Line line : lines) {
            table.row(
                    line.title(),
                    line.shown(),
                    line.target(),
                    line.target().equals("-") ? "-" : line.verdict().words(),
                    line.source());
        }
        for (Grade grade : Grade.values()) {
            table.row(
                    "share of " + grade,
                    percent(health.share(grade)),
                    target(grade),
                    "-",
                    STANDARD);
        }
        table.row(
                "share of the ten below", percent(health.topTenShare()), "1 to 5 %", "-", STANDARD);
        width.print(table);
        width.say(
                "The targets are per person on duty and meant for 30 days; shares say little with"
                        + " few alarms or few machines.");
        width.say("Times when leat did not run count as quiet.");
        if (!health.topTen().isEmpty()) {
            TextTable top = new TextTable().soft("most frequent", 20).firm("called");
            health.topTen().forEach(t -> top.row(t.alarm(), Long.toString(t.calls())));
            width.print(top);
        }
    }

    /** Low, medium and high of the standard. */
    private static String target(Grade grade) {
        return switch (grade) {
            case ADVISORY -> "about 80 %";
            case WARNING -> "about 15 %";
            case CRITICAL -> "about 5 %";
        };
    }

    /** How a figure stands to its target. */
    enum Verdict {
        GOOD,
        BEARABLE,
        TOO_MANY;

        String words() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
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

    private static Figure figure(Line line) {
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
                        STANDARD,
                        lines.stream().map(HealthSheet::figure).toList(),
                        shares,
                        health.topTenShare(),
                        health.topTen()));
    }
}
