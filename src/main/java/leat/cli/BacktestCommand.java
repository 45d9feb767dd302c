package leat.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.alarm.AlarmChange;
import leat.config.LimitWords;
import leat.replay.AlarmLife;
import leat.replay.Backtest;
import leat.replay.StoredSpan;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.store.StoreReader;
import leat.watch.WatchSettings;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "backtest",
        mixinStandardHelpOptions = true,
        description = {
            "Judges what is stored once more under changed limits, and lists which alarms would have come, gone"
                    + " or moved, so that limits are set from evidence. Nothing stored is changed.",
            "Such as: leat backtest --machine jet-1 --since 30d --set rise.warning=4s"
        })
final class BacktestCommand implements Callable<Integer> {

    private static final double MICROS_PER_WEEK = 7 * 86_400e6;

    @Mixin private SiteChoice site;
    @Mixin private SpanChoice span;

    @Option(
            names = "--set",
            required = true,
            paramLabel = "LIMIT=VALUE",
            description =
                    "a limit to change, by its name in site.yaml, such as level.warning=75psi")
    private List<String> words;

    @Option(names = "--json", description = "as one JSON document")
    private boolean asJson;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        Map<Limit, Double> changed = changed();
        SiteChoice.Chosen chosen = site.chosen();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            StoredSpan past = span.between(reader, chosen.shown().zone());
            Judging judging =
                    Judging.of(
                            reader,
                            past.machine(),
                            past.configHash(),
                            chosen.site(),
                            chosen.shown());
            WatchSettings now = judging.settings();
            WatchSettings then =
                    new WatchSettings(now.machine(), now.wired(), with(now.limits(), changed));
            show(Backtest.of(now, then, past), chosen.shown());
        }
        return Main.DONE;
    }

    private Map<Limit, Double> changed() {
        try {
            return LimitWords.read(words);
        } catch (IllegalArgumentException e) {
            throw new Trouble.Expected(Main.WRONG, "--set: " + e.getMessage());
        }
    }

    private static Limits with(Limits limits, Map<Limit, Double> changed) {
        Map<Limit, Double> merged = new EnumMap<>(Limit.class);
        merged.putAll(limits.changed());
        merged.putAll(changed);
        try {
            return Limits.with(merged);
        } catch (IllegalArgumentException e) {
            throw new Trouble.Expected(Main.WRONG, "--set: " + e.getMessage());
        }
    }

    private void show(Backtest backtest, Shown shown) {
        PrintWriter out = spec.commandLine().getOut();
        if (asJson) {
            out.println(json(backtest));
            return;
        }
        double weeks = weeks(backtest);
        out.printf(
                Locale.ROOT,
                "%s: %s to %s, %.1f weeks%n",
                backtest.before().settings().machine(),
                shown.time(backtest.before().fromMicros()),
                shown.time(backtest.before().toMicros()),
                weeks);
        TextTable table =
                new TextTable(
                        "alarm", "as it is", "under the changed limits", "what", "measured then");
        for (Backtest.Change change : backtest.changes()) {
            AlarmLife life = change.either();
            table.row(
                    change.kind().name().toLowerCase(Locale.ROOT),
                    words(change.before(), shown),
                    words(change.after(), shown),
                    life.gravest().rule().title(life.grade()),
                    shown.measured(life.gravest()));
        }
        out.print(table.isEmpty() ? "No alarm under either." + System.lineSeparator() : table);
        out.printf(
                Locale.ROOT,
                "As it is: %s. Under the changed limits: %s.%n",
                rate(backtest.before().alarms().size(), weeks),
                rate(backtest.after().alarms().size(), weeks));
    }

    private static String words(Optional<AlarmLife> life, Shown shown) {
        return life.map(l -> l.grade() + " " + shown.time(l.first().raisedAtMicros())).orElse("-");
    }

    /** A rate per week means something only after a week. */
    private static String rate(int alarms, double weeks) {
        String counted = alarms == 1 ? "1 alarm" : alarms + " alarms";
        return weeks < 1
                ? counted
                : String.format(Locale.ROOT, "%s, %.1f a week", counted, alarms / weeks);
    }

    private static double weeks(Backtest backtest) {
        return (backtest.before().toMicros() - backtest.before().fromMicros()) / MICROS_PER_WEEK;
    }

    private static String json(Backtest backtest) {
        ObjectNode document = Json.object();
        document.put("machine", backtest.before().settings().machine());
        document.put("from", Json.time(backtest.before().fromMicros()));
        document.put("to", Json.time(backtest.before().toMicros()));
        document.put("weeks", weeks(backtest));
        document.put("alarms_before", backtest.before().alarms().size());
        document.put("alarms_after", backtest.after().alarms().size());
        ArrayNode list = document.putArray("changes");
        for (Backtest.Change change : backtest.changes()) {
            ObjectNode node = list.addObject();
            node.put("kind", change.kind().name().toLowerCase(Locale.ROOT));
            node.put("rule", change.either().gravest().rule().key());
            node.put("channel", change.either().gravest().channel().key());
            put(node, "before", change.before());
            put(node, "after", change.after());
        }
        return Json.print(document);
    }

    private static void put(ObjectNode node, String name, Optional<AlarmLife> life) {
        if (life.isEmpty()) {
            node.putNull(name);
            return;
        }
        ObjectNode json = node.putObject(name);
        json.put("grade", life.get().grade().name().toLowerCase(Locale.ROOT));
        json.put("raised_at", Json.time(life.get().first().raisedAtMicros()));
        life.get()
                .returned()
                .map(AlarmChange::atMicros)
                .ifPresentOrElse(
                        at -> json.put("returned_at", Json.time(at)),
                        () -> json.putNull("returned_at"));
    }
}
