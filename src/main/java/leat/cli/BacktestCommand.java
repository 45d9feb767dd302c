package leat.cli;

import java.io.PrintWriter;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.config.LimitWords;
import leat.replay.Backtest;
import leat.replay.StoredSpan;
import leat.rule.Limit;
import leat.store.StoreReader;
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
                    + " or moved, with counts per week, so that limits are set from evidence. Nothing stored is"
                    + " changed.",
            "Such as: leat backtest --since 30d --set rise.warning=4s",
            "Without --machine all machines, without --since everything that is kept. \"As it is\" means by the"
                    + " limits of today's site.yaml, also for a time in which others held. An alarm counts each"
                    + " time it is raised, acknowledged or not. The last table counts how often each route of today's"
                    + " site.yaml would have called somebody: what nobody has answered is called again."
        })
final class BacktestCommand implements Callable<Integer> {

    @Mixin private SiteChoice site;
    @Mixin private SpanChoice span;

    @Option(
            names = "--set",
            required = true,
            paramLabel = "LIMIT=VALUE",
            description =
                    "a limit to change, by its name in site.yaml, such as level.warning=75psi;"
                            + " may be given more than once")
    private List<String> words;

    @Option(names = "--json", description = "as one JSON document (config/backtest.schema.json)")
    private boolean asJson;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        Map<Limit, Double> changes = changes();
        SiteChoice.Chosen chosen = site.chosen();
        ZoneId zone = chosen.shown().zone();
        List<JudgedAnew> judged = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            List<BacktestPlan> plans = new ArrayList<>();
            for (StoredSpan past : spans(reader, zone)) {
                plans.add(plan(reader, past, chosen, changes));
            }
            try (Progress progress = Progress.on(spec.commandLine().getErr())) {
                plans.forEach(plan -> judged.add(judged(plan, progress)));
            }
        }
        List<Backtest> results = judged.stream().map(JudgedAnew::result).toList();
        List<RouteCalls> routes =
                chosen.site().map(known -> RouteCalls.of(known, results)).orElse(List.of());
        PrintWriter out = spec.commandLine().getOut();
        if (asJson) {
            out.println(BacktestJson.of(judged, routes, changes, zone));
        } else {
            out.print(
                    new BacktestTable(chosen.shown(), changes, width.columns())
                            .of(judged, routes, span.sinceMicros(zone)));
        }
        return ExitCode.DONE;
    }

    private Map<Limit, Double> changes() {
        try {
            return LimitWords.read(words);
        } catch (IllegalArgumentException e) {
            throw CommandFailure.Expected.worded(ExitCode.WRONG, "--set: " + e.getMessage());
        }
    }

    /** What is stored of the machine, or of every machine of which there is something. */
    private List<StoredSpan> spans(StoreReader reader, ZoneId zone) {
        List<String> known = reader.machines();
        span.machine()
                .filter(name -> !known.contains(name))
                .ifPresent(
                        name -> {
                            throw wrong("cli.backtest.no-machine", name, known.toString());
                        });
        long from = span.sinceMicros(zone);
        long to = span.untilMicros(zone);
        if (from >= to) {
            throw wrong("cli.since-until");
        }
        List<StoredSpan> spans =
                span.machine().map(List::of).orElse(known).stream()
                        .map(machine -> StoredSpan.between(reader, machine, from, to))
                        .flatMap(Optional::stream)
                        .toList();
        if (spans.isEmpty()) {
            throw nothing();
        }
        return spans;
    }

    private CommandFailure.Expected nothing() {
        if (span.machine().isPresent()) {
            String name = span.machine().get();
            return wrong(span.isGiven() ? "cli.nothing-stored" : "cli.backtest.nothing-of", name);
        }
        return wrong(span.isGiven() ? "cli.backtest.nothing-then" : "cli.backtest.nothing");
    }

    private static BacktestPlan plan(
            StoreReader reader,
            StoredSpan past,
            SiteChoice.Chosen chosen,
            Map<Limit, Double> changes) {
        try {
            return BacktestPlan.of(reader, past, chosen.site(), changes);
        } catch (IllegalArgumentException e) {
            throw wrong("cli.backtest.set-for", past.machine(), e.getMessage());
        }
    }

    private static JudgedAnew judged(BacktestPlan plan, Progress progress) {
        long done = plan.span().afterSeq();
        long inputs = plan.span().toSeq() - done;
        List<Backtest.Stretch> watched = new ArrayList<>();
        for (Backtest.Stretch stretch : plan.stretches()) {
            watched.add(
                    new Backtest.Stretch(
                            stretch.before(),
                            stretch.after(),
                            progress.of(plan.machine(), inputs, stretch.past())));
        }
        return new JudgedAnew(plan, Backtest.of(watched));
    }

    private static CommandFailure.Expected wrong(String key, Object... values) {
        return new CommandFailure.Expected(ExitCode.WRONG, key, values);
    }
}
