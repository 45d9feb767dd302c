package leat.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import leat.measure.Startup;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.rule.StartupVerdict;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "startups",
        mixinStandardHelpOptions = true,
        description = "Lists the startups that were measured, the newest first.")
final class StartupsCommand implements Callable<Integer> {

    @Mixin private SiteChoice site;

    @Option(names = "--machine", paramLabel = "NAME", description = "of one machine only")
    private String machine;

    @Option(
            names = "--limit",
            converter = AtMost.class,
            paramLabel = "N",
            defaultValue = "20",
            description = "at most so many (default: 20)")
    private int limit;

    @Option(names = "--json", description = "as one JSON document")
    private boolean asJson;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        SiteChoice.Chosen chosen = site.chosen();
        PrintWriter out = spec.commandLine().getOut();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            StartupQuery newest = StartupQuery.newest(limit);
            List<StoredStartup> startups =
                    reader.startups(machine == null ? newest : newest.of(machine));
            if (asJson) {
                out.println(json(startups));
            } else if (startups.isEmpty()) {
                out.println("No startup has been measured yet.");
            } else {
                out.print(table(startups, chosen.shown()));
            }
        }
        return Main.DONE;
    }

    static TextTable table(List<StoredStartup> startups, Shown shown) {
        TextTable table =
                new TextTable(
                        "started",
                        "machine",
                        "rise",
                        "from inlet",
                        "base",
                        "top",
                        "inlet",
                        "ratio",
                        "verdict",
                        "note");
        for (StoredStartup stored : startups) {
            Startup startup = stored.startup();
            table.row(
                    shown.time(startup.startedAtMicros()),
                    stored.machine(),
                    Shown.seconds(startup.riseSeconds()),
                    Shown.seconds(startup.riseFromInletSeconds()),
                    shown.pressure(startup.basePsi()),
                    shown.pressure(startup.topPsi()),
                    shown.pressure(startup.inletRunningPsi()),
                    Shown.ratio(startup.ratio()),
                    words(stored.verdict().outcome()),
                    stored.verdict().note());
        }
        return table;
    }

    private static String words(StartupVerdict.Outcome outcome) {
        return switch (outcome) {
            case GOOD -> "rise good";
            case SLOW -> "slow";
            case VERY_SLOW -> "very slow";
            case NOT_RISEN -> "not risen";
            case NO_BOOST -> "no boost";
            case RELAXED -> "slow, after service";
            case NOT_JUDGED -> "not judged";
        };
    }

    private static String json(List<StoredStartup> startups) {
        ObjectNode document = Json.object();
        ArrayNode list = document.putArray("startups");
        for (StoredStartup stored : startups) {
            list.add(Json.startup(stored.machine(), stored.startup(), stored.verdict()));
        }
        return Json.print(document);
    }
}
