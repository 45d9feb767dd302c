package leat.cli;

import java.io.PrintWriter;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Function;
import leat.config.Site;
import leat.json.Inline;
import leat.json.Published;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.report.Csv;
import leat.report.Episodes;
import leat.report.Glyphs;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.words.BriefTimes;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "startups",
        mixinStandardHelpOptions = true,
        description = {
            "Lists the startups that were measured, the newest first, with the verdict on the run that each began:"
                    + " \"good\" says that rise, levels, ratio, inlet and filters were. The curve is the boosted pressure from just"
                    + " before the start to 7.5 s after it; it is left out where the readings are no longer kept.",
            "leat replay NUMBER tells all of one; leat export NUMBER writes it to a file."
        })
final class StartupsCommand implements Callable<Integer> {

    private static final int DEFAULT_LIMIT = 20;

    @Mixin private SiteChoice site;
    @Mixin private SpanChoice span;

    @Option(
            names = "--slow",
            description =
                    "only those whose rise was not found good: slow, not risen, without boost; what else"
                            + " was wrong in a run does not count here")
    private boolean slow;

    @Option(
            names = "--unacknowledged",
            description =
                    "only those whose run, from the start until the next start, raised an alarm that"
                            + " nobody has acknowledged yet, whether it still stands or not")
    private boolean unacknowledged;

    @Option(
            names = "--slowest",
            converter = AtMost.class,
            paramLabel = "N",
            description =
                    "the N slowest: those that did not rise, then by the longest rise from rest")
    private Integer slowest;

    @Option(
            names = "--limit",
            converter = AtMost.class,
            paramLabel = "N",
            description = "at most so many (default: 20)")
    private Integer limit;

    @Option(names = "--json", description = "as one JSON document (config/startups.schema.json)")
    private boolean asJson;

    @Option(names = "--csv", description = "as CSV, with the names of the JSON fields")
    private boolean asCsv;

    @Option(names = "--ascii", description = "draw with plain characters")
    private boolean ascii;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        if (asJson && asCsv) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.json-or-csv");
        }
        if (slowest != null && limit != null) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.startups.slowest-or-limit");
        }
        SiteChoice.Chosen chosen = site.chosen();
        PrintWriter out = spec.commandLine().getOut();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            requireKnown(reader.machines(), chosen.site());
            List<StoredStartup> startups = reader.startups(query(chosen.shown().zone()));
            if (asJson) {
                out.println(json(startups));
            } else if (asCsv) {
                out.print(Csv.of(startups.stream().map(StartupsCommand::numbered).toList()));
            } else if (startups.isEmpty()) {
                out.println(
                        chosen.shown()
                                .say(isFiltered() ? "cli.startups.none" : "cli.startups.never"));
            } else {
                StoredCurve curve = new StoredCurve(reader, Glyphs.of(ascii));
                BriefTimes brief = BriefTimes.of(chosen.shown().zone(), Who.nowMicros());
                TextTable table = table(startups, chosen.shown(), brief, curve::of);
                boolean whole = width.print(table);
                width.say(brief.note(chosen.shown().phrases()));
                width.more(whole, chosen.shown().phrases());
                withoutInlet(startups)
                        .ifPresent(
                                machines ->
                                        width.say(
                                                chosen.shown()
                                                        .say("cli.startups.no-inlet", machines)));
                if (startups.stream().anyMatch(s -> s.run().isEmpty() && !s.lasting())) {
                    out.println(chosen.shown().say("cli.startups.rise-alone"));
                }
                below(startups.size(), out, chosen.shown());
            }
        }
        return ExitCode.DONE;
    }

    private boolean isFiltered() {
        return slow || unacknowledged || span.isGiven() || span.machine().isPresent();
    }

    /** A machine that is wired and has not run yet has no startups; that is no mistake. */
    private void requireKnown(List<String> stored, Optional<Site> now) {
        span.machine()
                .filter(name -> !stored.contains(name))
                .filter(name -> now.flatMap(s -> s.machine(name)).isEmpty())
                .ifPresent(
                        name -> {
                            throw new CommandFailure.Expected(
                                    ExitCode.WRONG, "cli.no-machine", name, stored.toString());
                        });
    }

    /** Why there is no inlet and no ratio in the list. */
    private static Optional<String> withoutInlet(List<StoredStartup> startups) {
        return startups.stream()
                .filter(
                        stored ->
                                stored.startup()
                                        .inletRunningPsi()
                                        .absence()
                                        .equals(Optional.of(Absence.NO_INLET_GAUGE)))
                .map(StoredStartup::machine)
                .distinct()
                .sorted()
                .reduce((a, b) -> a + ", " + b);
    }

    /** What a person may want to type next. */
    private void below(int shownRows, PrintWriter out, Shown shown) {
        if (slowest == null && shownRows == atMost()) {
            out.println(shown.say("cli.more", Integer.toString(5 * atMost())));
        }
        if (unacknowledged) {
            out.println(shown.say("cli.startups.alarms"));
        }
    }

    private int atMost() {
        return limit == null ? DEFAULT_LIMIT : limit;
    }

    private StartupQuery query(ZoneId zone) {
        long from = span.sinceMicros(zone);
        long to = span.untilMicros(zone);
        if (from >= to) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.since-until");
        }
        StartupQuery query =
                StartupQuery.newest(slowest == null ? atMost() : slowest).between(from, to);
        query = span.machine().map(query::of).orElse(query);
        query = slow ? query.onlySlow() : query;
        query = unacknowledged ? query.onlyUnacknowledged() : query;
        return slowest == null ? query : query.slowestFirst();
    }

    static TextTable table(List<StoredStartup> startups, Shown shown) {
        BriefTimes brief = BriefTimes.of(shown.zone(), Who.nowMicros());
        return table(startups, shown, brief, startup -> "");
    }

    private static TextTable table(
            List<StoredStartup> startups,
            Shown shown,
            BriefTimes brief,
            Function<StoredStartup, String> curve) {
        TextTable table =
                new TextTable()
                        .soft(shown.say("cli.column.number"), 9)
                        .firm(shown.say("cli.column.started"))
                        .soft(shown.say("cli.column.verdict"), 16)
                        .firm(shown.say("cli.column.rise"))
                        .firm(shown.say("cli.column.reached"))
                        .firm(shown.say("cli.column.ratio"))
                        .spare(shown.say("cli.column.inlet"))
                        .spare(shown.say("cli.column.curve"))
                        .spare(shown.say("cli.column.before"))
                        .spare(shown.say("cli.column.rise-from-inlet"))
                        .spare(shown.say("cli.column.note"))
                        .spare(shown.say("cli.column.exactly"));
        for (StoredStartup stored : startups) {
            Startup startup = stored.startup();
            table.row(
                    stored.name(),
                    brief.time(startup.startedAtMicros()),
                    verdict(stored, shown),
                    shown.seconds(startup.riseSeconds()),
                    shown.pressure(startup.topPsi()),
                    shown.ratio(startup.ratio()),
                    shown.pressure(startup.inletRunningPsi()),
                    curve.apply(stored),
                    shown.pressure(startup.basePsi()),
                    shown.seconds(startup.riseFromInletSeconds()),
                    shown.findings().note(stored.verdict()),
                    shown.time(startup.startedAtMicros()));
        }
        return table;
    }

    /** Of the run; where that was not judged, of the rise alone. */
    private static String verdict(StoredStartup stored, Shown shown) {
        String rise = shown.verdict(stored.verdict().outcome());
        return stored.run()
                .map(run -> shown.findings().runs().brief(run, stored.verdict()))
                .orElse(stored.lasting() ? shown.say("cli.startups.running", rise) : rise);
    }

    /** The document. */
    @Published("leat.startups/1")
    record Told(List<Numbered> startups) {}

    /** One start and what people type to name it. */
    record Numbered(String number, @Inline Episodes.Start start) {}

    private static Numbered numbered(StoredStartup stored) {
        return new Numbered(
                stored.name(),
                Episodes.Start.of(
                        stored.machine(), stored.startup(), stored.verdict(), stored.run()));
    }

    private static String json(List<StoredStartup> startups) {
        return Json.print(new Told(startups.stream().map(StartupsCommand::numbered).toList()));
    }
}
