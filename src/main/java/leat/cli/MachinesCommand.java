package leat.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.config.Site;
import leat.live.MachineNow;
import leat.live.OutageNow;
import leat.live.SiteNow;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.screen.NowWords;
import leat.screen.SiteView;
import leat.signal.Channel;
import leat.store.StoredAlarm;
import leat.words.OutageWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "machines",
        mixinStandardHelpOptions = true,
        description = {
            "Lists the machines as they are now: what the line does, both gauges, how old the last reading is, what"
                    + " stands, and the last start. Those with alarms come first, the gravest on top; the others in"
                    + " the order of site.yaml.",
            "It works with leat down too, and says so: then all is as it was last stored. leat watch shows the same"
                    + " anew each second."
        })
final class MachinesCommand implements Callable<Integer> {

    @Mixin private SiteChoice choice;

    @Option(names = "--json", description = "as one JSON document (config/machines.schema.json)")
    private boolean asJson;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        SiteChoice.Chosen chosen = choice.chosen();
        Site site = MachineChoice.all(chosen);
        PrintWriter out = spec.commandLine().getOut();
        try (SiteView view = new SiteView(chosen.database(), site)) {
            SiteNow now = view.now(Who.nowMicros());
            if (asJson) {
                out.println(Json.print(MachinesJson.of(now)));
            } else {
                show(NowWords.of(choice.shown(site), now), now);
            }
        }
        return ExitCode.DONE;
    }

    private void show(NowWords words, SiteNow now) {
        width.say(words.daemonInFull(now.daemon()));
        now.outages().forEach(outage -> width.say(words(outage, words)));
        boolean whole = width.print(table(worstFirst(now.machines()), words, now));
        width.more(whole, words.shown().phrases());
    }

    private static String words(OutageNow outage, NowWords words) {
        Shown shown = words.shown();
        return shown.say(
                "live.outage",
                shown.findings().grade(outage.grade()),
                what(outage, shown),
                words.clock(outage.sinceMicros()),
                new OutageWords(shown.phrases()).blind(outage.blind()),
                Long.toString(outage.number()));
    }

    private static String what(OutageNow outage, Shown shown) {
        return new OutageWords(shown.phrases())
                .what(outage.connections(), outage.isWhole(), outage.channels().size());
    }

    /** An outage is one thing, however many channels of the machine are silent. */
    private static String stands(MachineNow machine, NowWords words, SiteNow now) {
        Shown shown = words.shown();
        Optional<OutageNow> worst = machine.alarms().stream().findFirst().flatMap(now::outageOf);
        long others =
                machine.alarms().stream().filter(alarm -> now.outageOf(alarm).isEmpty()).count();
        return worst.map(
                        outage ->
                                shown.findings().grade(outage.grade())
                                        + " "
                                        + shown.say("live.showing.silent")
                                        + (others > 0 ? " +" + others : ""))
                .orElseGet(() -> words.stands(machine));
    }

    private static List<MachineNow> worstFirst(List<MachineNow> machines) {
        List<MachineNow> sorted = new ArrayList<>(machines);
        sorted.removeIf(machine -> machine.alarms().isEmpty());
        sorted.sort(
                Comparator.comparing(
                        machine -> machine.alarms().get(0).alarm(), StoredAlarm.WORST_FIRST));
        machines.stream().filter(machine -> machine.alarms().isEmpty()).forEach(sorted::add);
        return sorted;
    }

    private static TextTable table(List<MachineNow> machines, NowWords words, SiteNow now) {
        Shown shown = words.shown();
        TextTable table =
                new TextTable()
                        .soft(shown.say("live.column.machine"), 7)
                        .firm(shown.say("live.column.phase"))
                        .soft(words.channel(Channel.INLET), 8)
                        .soft(words.channel(Channel.BOOSTED), 8)
                        .firm(shown.say("live.column.read"))
                        .soft(shown.say("live.column.stands"), 14)
                        .soft(shown.say("live.column.start"), 9)
                        .spare(shown.say("live.column.since"))
                        .spare(shown.say("live.column.check"));
        for (MachineNow machine : machines) {
            table.row(
                    machine.name(),
                    words.phase(machine),
                    words.value(machine, Channel.INLET),
                    words.value(machine, Channel.BOOSTED),
                    words.ago(machine.readMicros()),
                    stands(machine, words, now),
                    machine.lastStart().map(start -> words.verdict(start.startup())).orElse("-"),
                    machine.phase().map(phase -> words.clock(phase.sinceMicros())).orElse("-"),
                    machine.alarms().stream().findFirst().map(words::check).orElse(""));
        }
        return table;
    }
}
