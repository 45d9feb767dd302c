package leat.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.instruct.Refused;
import leat.json.Published;
import leat.measure.Measurand;
import leat.report.Episodes;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.rule.Baseline;
import leat.rule.Learning;
import leat.rule.Usual;
import leat.signal.Order;
import leat.store.StoreReader;
import leat.words.Saying;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "baseline",
        mixinStandardHelpOptions = true,
        description = {
            "Shows what is usual for each machine, learned from its own good starts, or how far learning is.",
            "--learn says that the machine is sound and has it learned anew from its next starts; also from"
                    + " slow ones, for a machine that is slow by nature. leat journal --serviced does so too,"
                    + " but learns from good starts only."
        })
final class BaselineCommand implements Callable<Integer> {

    @Option(names = "--machine", paramLabel = "NAME", description = "the machine, such as jet-1")
    private String machine;

    @Option(names = "--learn", description = "learn anew from the next starts of that machine")
    private boolean learn;

    @Option(
            names = "--why",
            paramLabel = "TEXT",
            description = "why it is to be learned anew; kept in the journal")
    private String why;

    @Mixin private Asking asking;

    @Option(
            names = "--json",
            description = "show as one JSON document (config/baseline.schema.json)")
    private boolean asJson;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    /** What is known of one machine. */
    private record Known(
            String machine,
            Optional<Baseline> baseline,
            Optional<Learning> learning,
            boolean waits) {}

    @Override
    public Integer call() throws Refused, InterruptedException {
        if (!learn && why != null) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.baseline.why");
        }
        return learn ? learn() : show(asking.site());
    }

    private int learn() throws Refused, InterruptedException {
        if (machine == null || why == null) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.baseline.which");
        }
        return asking.ask(
                spec,
                Saying.of("cli.about.baseline", machine),
                requests -> requests.journal(machine, Order.Entry.LEARN, why, ""));
    }

    private int show(SiteChoice.Chosen chosen) {
        PrintWriter out = spec.commandLine().getOut();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            List<String> machines = reader.machines();
            if (machine != null && !machines.contains(machine)) {
                throw new CommandFailure.Expected(
                        ExitCode.WRONG, "cli.no-machine", machine, machines.toString());
            }
            List<Known> all =
                    machines.stream()
                            .filter(name -> machine == null || name.equals(machine))
                            .map(name -> known(reader, name))
                            .toList();
            if (asJson) {
                out.println(json(all));
            } else if (all.isEmpty()) {
                out.println(chosen.shown().say("cli.baseline.none"));
            } else {
                all.forEach(known -> print(known, chosen.shown()));
            }
        }
        return ExitCode.DONE;
    }

    private static Known known(StoreReader reader, String name) {
        return new Known(
                name,
                reader.baselineAfter(name, Long.MAX_VALUE),
                reader.learningAfter(name, Long.MAX_VALUE),
                reader.waiting().stream()
                        .anyMatch(
                                left ->
                                        left.machine().equals(name)
                                                && left.instruction().order()
                                                        instanceof Order.Journal entry
                                                && entry.entry() == Order.Entry.LEARN));
    }

    private void print(Known known, Shown shown) {
        width.say(
                known.machine()
                        + ": "
                        + known.baseline()
                                .map(baseline -> words(baseline, shown))
                                .or(() -> known.learning().map(shown.findings()::learning))
                                .orElseGet(() -> shown.say("cli.baseline.no-start")));
        known.baseline().ifPresent(baseline -> width.print(table(baseline, shown)));
        if (known.waits()) {
            width.say(shown.say("cli.baseline.waits"));
        }
    }

    private static String words(Baseline baseline, Shown shown) {
        return shown.say(
                "cli.baseline.of",
                Integer.toString(baseline.count()),
                shown.time(baseline.starts().get(0)),
                shown.time(baseline.learnedAtMicros()));
    }

    private static TextTable table(Baseline baseline, Shown shown) {
        TextTable table =
                new TextTable()
                        .soft("", 30)
                        .firm(shown.say("cli.baseline.usual"))
                        .firm(shown.say("cli.baseline.starts"));
        baseline.figures()
                .forEach((m, usual) -> row(table, shown.findings().title(m), m, usual, shown));
        baseline.runs()
                .forEach(
                        (m, usual) ->
                                row(
                                        table,
                                        shown.say("cli.baseline.run", shown.findings().title(m)),
                                        m,
                                        usual,
                                        shown));
        return table;
    }

    private static void row(
            TextTable table, String title, Measurand measurand, Usual usual, Shown shown) {
        table.row(title, shown.usual(measurand.unit(), usual), Integer.toString(usual.count()));
    }

    /** The document. */
    @Published("leat.baseline/1")
    record Told(List<Machine> machines) {}

    /** What is known of one machine, or how far it has been learned. */
    record Machine(
            String machine, Optional<Episodes.Normal> baseline, Optional<Learning> learning) {}

    private static String json(List<Known> all) {
        return Json.print(
                new Told(
                        all.stream()
                                .map(
                                        known ->
                                                new Machine(
                                                        known.machine(),
                                                        known.baseline().map(Episodes.Normal::of),
                                                        known.learning()
                                                                .filter(
                                                                        l ->
                                                                                known.baseline()
                                                                                        .isEmpty())))
                                .toList()));
    }
}
