package leat.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.rule.Finding;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "alerts",
        mixinStandardHelpOptions = true,
        description = "Lists the alarms that stand; with --all also those that are back to normal.")
final class AlertsCommand implements Callable<Integer> {

    @Mixin private SiteChoice site;

    @Option(names = "--all", description = "the newest, standing or not")
    private boolean all;

    @Option(
            names = "--limit",
            converter = AtMost.class,
            paramLabel = "N",
            defaultValue = "50",
            description = "at most so many (default: 50)")
    private int limit;

    @Option(
            names = "--history",
            paramLabel = "ALARM",
            description = "every change of one alarm, by number or id")
    private String history;

    @Option(names = "--json", description = "as one JSON document")
    private boolean asJson;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        SiteChoice.Chosen chosen = site.chosen();
        PrintWriter out = spec.commandLine().getOut();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            List<StoredAlarm> alarms = alarms(reader);
            if (asJson) {
                out.println(json(alarms));
            } else if (alarms.isEmpty()) {
                out.println(all ? "No alarm has been raised yet." : "No alarm stands.");
            } else {
                out.print(table(alarms, chosen.shown()));
                out.println(
                        "leat alerts --history NUMBER tells all of one; leat ack NUMBER acknowledges.");
            }
        }
        return Main.DONE;
    }

    private List<StoredAlarm> alarms(StoreReader reader) {
        if (history != null) {
            StoredAlarm alarm =
                    reader.alarm(history)
                            .orElseThrow(
                                    () ->
                                            new Trouble.Expected(
                                                    Main.FAILED,
                                                    "There is no alarm " + history + "."));
            return reader.alarmHistory(alarm.change().alarmId());
        }
        return all ? reader.alarms(limit) : reader.standingAlarms();
    }

    static TextTable table(List<StoredAlarm> alarms, Shown shown) {
        TextTable table =
                new TextTable(
                        "no.",
                        "grade",
                        "machine",
                        "what",
                        "measured",
                        "gauges in / out",
                        "state",
                        "raised",
                        "changed");
        for (StoredAlarm alarm : alarms) {
            Finding finding = alarm.change().finding();
            String what =
                    finding.rule().isAboutSignal()
                            ? finding.channel().key() + " " + finding.rule().title(finding.grade())
                            : finding.rule().title(finding.grade());
            table.row(
                    Long.toString(alarm.number()),
                    finding.grade().name(),
                    alarm.machine(),
                    what,
                    shown.measured(finding),
                    shown.pressure(finding.inletPsi())
                            + " / "
                            + shown.pressure(finding.boostedPsi()),
                    alarm.change().to().key(),
                    shown.time(alarm.change().raisedAtMicros()),
                    shown.time(alarm.change().atMicros()));
        }
        return table;
    }

    private static String json(List<StoredAlarm> alarms) {
        ObjectNode document = Json.object();
        ArrayNode list = document.putArray("alarms");
        for (StoredAlarm alarm : alarms) {
            list.add(Json.alarm(alarm.machine(), alarm.change()).put("number", alarm.number()));
        }
        return Json.print(document);
    }
}
