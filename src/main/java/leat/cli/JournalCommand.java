package leat.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.instruct.Refused;
import leat.json.Published;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.signal.Order;
import leat.store.JournalLine;
import leat.store.StoreReader;
import leat.words.BriefTimes;
import leat.words.Saying;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "journal",
        mixinStandardHelpOptions = true,
        description = {
            "Shows what was done to the machines; with a machine and a text, adds an entry.",
            "--did says what was done, and leat goes by it. After serviced, pump-replaced, filter-changed and"
                    + " strainer-cleaned the next starts are known to be slow while air purges: a slow"
                    + " rise is then only noted. After these, regulator-turned and transducer-changed it"
                    + " learns anew what is usual.",
            "--found says what was the matter, so that leat learns how often it was right."
        })
final class JournalCommand implements Callable<Integer> {

    @Parameters(index = "0", arity = "0..1", paramLabel = "MACHINE", description = "such as jet-1")
    private String machine;

    @Parameters(index = "1", arity = "0..1", paramLabel = "TEXT", description = "what was done")
    private String text;

    @Option(
            names = "--serviced",
            description = "the line was opened and closed again; as --did serviced")
    private boolean serviced;

    @Mixin private WorkWords work;

    @Mixin private Asking asking;

    @Option(
            names = "--limit",
            converter = AtMost.class,
            paramLabel = "N",
            defaultValue = "20",
            description = "show at most so many (default: 20)")
    private int limit;

    @Option(
            names = "--json",
            description = "show as one JSON document (config/journal.schema.json)")
    private boolean asJson;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws Refused, InterruptedException {
        boolean shows = text == null && !serviced && work.did().isEmpty() && work.found().isEmpty();
        return shows ? show(asking.site()) : add();
    }

    private int add() throws Refused, InterruptedException {
        if (machine == null) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.journal.which");
        }
        if (serviced && work.did().isPresent()) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.journal.twice");
        }
        String words = text == null ? "" : text;
        if (Deeds.contains(words)) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.journal.mere-note", words);
        }
        Order.Entry entry = work.did().orElse(serviced ? Order.Entry.SERVICED : Order.Entry.NOTE);
        return asking.ask(
                spec,
                Saying.of("cli.about.journal", machine),
                requests -> requests.journal(machine, entry, words, work.found()));
    }

    private int show(SiteChoice.Chosen chosen) {
        PrintWriter out = spec.commandLine().getOut();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            List<JournalLine> lines = reader.journal(Optional.ofNullable(machine), limit);
            if (asJson) {
                out.println(json(lines));
            } else if (lines.isEmpty()) {
                out.println(chosen.shown().say("cli.journal.empty"));
            } else {
                BriefTimes brief = BriefTimes.of(chosen.shown().zone(), Who.nowMicros());
                TextTable table = table(lines, chosen.shown(), brief);
                boolean whole = width.print(table);
                width.say(brief.note(chosen.shown().phrases()));
                width.more(whole, chosen.shown().phrases());
            }
        }
        return ExitCode.DONE;
    }

    private static TextTable table(List<JournalLine> lines, Shown shown, BriefTimes brief) {
        TextTable table =
                new TextTable(shown.say("cli.column.when"))
                        .soft(shown.say("cli.column.machine"), 8)
                        .firm(shown.say("cli.column.entry"))
                        .soft(shown.say("cli.column.found"), 8)
                        .soft(shown.say("cli.column.by"), 6)
                        .soft(shown.say("cli.column.text"), 10)
                        .spare(shown.say("cli.column.exactly"));
        for (JournalLine line : lines) {
            table.row(
                    brief.day(line.atMicros()),
                    line.machine(),
                    line.entry().entry().key(),
                    line.entry().found(),
                    line.by(),
                    line.entry().text(),
                    shown.time(line.atMicros()));
        }
        return table;
    }

    /** The document. */
    @Published("leat.journal/1")
    record Told(List<Line> journal) {}

    /** One entry. */
    record Line(
            String machine,
            long atMicros,
            Order.Entry entry,
            String by,
            String text,
            String found) {}

    private static String json(List<JournalLine> lines) {
        return Json.print(
                new Told(
                        lines.stream()
                                .map(
                                        line ->
                                                new Line(
                                                        line.machine(),
                                                        line.atMicros(),
                                                        line.entry().entry(),
                                                        line.by(),
                                                        line.entry().text(),
                                                        line.entry().found()))
                                .toList()));
    }
}
