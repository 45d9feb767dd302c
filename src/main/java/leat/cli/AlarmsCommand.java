package leat.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.alarm.ServiceChange;
import leat.json.IfThere;
import leat.json.Published;
import leat.measure.Figure;
import leat.report.Json;
import leat.report.Shown;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PlainText;
import leat.store.MachineInService;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.words.AlarmWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "alarms",
        mixinStandardHelpOptions = true,
        description = {
            "Lists the alarms that stand, the gravest first, and apart from them those that have returned"
                    + " or are shelved; with --all also those that are back to normal.",
            "--health shows whether people can live with the alarms, by the figures of ISA-18.2."
        })
final class AlarmsCommand implements Callable<Integer> {

    private static final int LONGEST_WORDS = 200;

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

    @Option(names = "--health", description = "how many alarms there are, against targets")
    private boolean health;

    @Option(
            names = "--since",
            paramLabel = "TIME",
            defaultValue = "30d",
            description = "with --health, from then on (default: 30d): " + TimeWords.ALLOWED)
    private String since;

    @Option(
            names = "--json",
            description =
                    "as one JSON document (config/alarms.schema.json; of --health, config/health.schema.json)")
    private boolean asJson;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        SiteChoice.Chosen chosen = site.chosen();
        PrintWriter out = spec.commandLine().getOut();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            if (health) {
                HealthSheet sheet = HealthSheet.of(reader, chosen.shown(), since);
                if (asJson) {
                    out.println(sheet.json());
                } else {
                    sheet.print(width);
                }
                return ExitCode.DONE;
            }
            List<StoredAlarm> alarms = alarms(reader);
            List<MachineInService> serviced = reader.inService();
            if (asJson) {
                out.println(json(alarms, serviced));
            } else {
                show(out, alarms, chosen);
                serviced.forEach(s -> width.say(words(s, chosen.shown())));
            }
        }
        return ExitCode.DONE;
    }

    private void show(PrintWriter out, List<StoredAlarm> alarms, SiteChoice.Chosen chosen) {
        Shown shown = chosen.shown();
        if (alarms.isEmpty()) {
            out.println(shown.say(all ? "cli.alarms.never" : "cli.alarms.none"));
            return;
        }
        AlarmList list = AlarmList.of(shown);
        boolean whole;
        if (history == null) {
            List<StoredAlarm> standing = alarms.stream().filter(StoredAlarm::isActive).toList();
            whole = list.print(alarms, OutageChoice.of(standing, chosen), width);
        } else {
            StoredAlarm last = alarms.get(alarms.size() - 1);
            width.say(
                    shown.say(
                            "cli.alarms.one",
                            Long.toString(last.number()),
                            last.machine(),
                            shown.findings().what(last.change().finding())));
            whole = width.print(list.history(alarms));
        }
        width.say(list.brief().note(shown.phrases()));
        width.more(whole, shown.phrases());
        width.say(shown.say("cli.alarms.next"));
    }

    private static String words(MachineInService serviced, Shown shown) {
        ServiceChange change = serviced.change();
        String why = PlainText.harmless(change.why(), LONGEST_WORDS);
        return shown.say(
                "cli.alarms.serviced",
                serviced.machine(),
                PlainText.harmless(change.by(), LONGEST_WORDS),
                shown.time(change.atMicros()),
                why.isEmpty() ? "" : ": " + why,
                shown.time(change.untilMicros()));
    }

    private List<StoredAlarm> alarms(StoreReader reader) {
        if (history != null) {
            StoredAlarm alarm =
                    reader.alarm(history)
                            .orElseThrow(
                                    () ->
                                            new CommandFailure.Expected(
                                                    ExitCode.WRONG, "cli.no-alarm", history));
            return reader.alarmHistory(alarm.change().alarmId());
        }
        return all ? reader.alarms(limit) : reader.standingAlarms();
    }

    /** The document. */
    @Published("leat.alarms/1")
    record Told(List<Alarm> alarms, List<InService> inService) {}

    /** One alarm, or one change of it. */
    record Alarm(
            String machine,
            String id,
            int revision,
            Rule rule,
            Channel channel,
            Grade grade,
            AlarmState state,
            AlarmEvent event,
            long atMicros,
            long raisedAtMicros,
            long sinceMicros,
            double measured,
            double limit,
            Finding.Quantity quantity,
            Finding.Sense sense,
            Figure inletPsi,
            Figure boostedPsi,
            String detail,
            String by,
            AlarmState ownState,
            int count,
            boolean chattering,
            @IfThere OptionalLong shelvedUntilMicros,
            String why,
            long number) {

        static Alarm of(StoredAlarm stored) {
            AlarmChange change = stored.change();
            Finding finding = change.finding();
            AlarmNotes notes = change.notes();
            return new Alarm(
                    stored.machine(),
                    change.alarmId(),
                    change.revision(),
                    finding.rule(),
                    finding.channel(),
                    finding.grade(),
                    change.to(),
                    change.event(),
                    change.atMicros(),
                    change.raisedAtMicros(),
                    finding.sinceMicros(),
                    finding.measured(),
                    finding.limit(),
                    finding.quantity(),
                    finding.sense(),
                    finding.inletPsi(),
                    finding.boostedPsi(),
                    Json.IN_PSI.remarks(finding),
                    change.by(),
                    notes.own(),
                    notes.count(),
                    notes.chattering(),
                    notes.shelvedUntilMicros(),
                    AlarmWords.ENGLISH.why(notes),
                    stored.number());
        }
    }

    /** A machine that somebody works on. */
    record InService(String machine, long atMicros, long untilMicros, String by, String why) {

        static InService of(MachineInService serviced) {
            ServiceChange change = serviced.change();
            return new InService(
                    serviced.machine(),
                    change.atMicros(),
                    change.untilMicros(),
                    change.by(),
                    change.why());
        }
    }

    private static String json(List<StoredAlarm> alarms, List<MachineInService> serviced) {
        return Json.print(
                new Told(
                        alarms.stream().map(Alarm::of).toList(),
                        serviced.stream().map(InService::of).toList()));
    }
}
