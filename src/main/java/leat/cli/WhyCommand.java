package leat.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import leat.config.Site;
import leat.diagnose.Answer;
import leat.diagnose.Diagnosis;
import leat.json.IfThere;
import leat.json.Published;
import leat.json.WeighedCause;
import leat.measure.Startup;
import leat.replay.PastDiagnosis;
import leat.replay.StoredSpan;
import leat.replay.WhyAbout;
import leat.replay.WhyScreen;
import leat.report.Glyphs;
import leat.report.Json;
import leat.report.Shown;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.store.StoredStartup;
import leat.words.Saying;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "why",
        mixinStandardHelpOptions = true,
        description = {
            "Says what is likely the cause of what was seen: the causes with their weights, what speaks for"
                    + " and against each, and the check that decides.",
            "Of a startup it looks at that one with its run and the stop after it; of an alarm, at all since"
                    + " its condition came; of a machine, at its last ten starts together.",
            "leat answer tells what a check showed, leat journal --found what it was in the end; leat replay NUMBER --report FILE.html writes a page to"
                    + " take along."
        })
final class WhyCommand implements Callable<Integer> {

    @Parameters(
            arity = "0..1",
            paramLabel = "NUMBER|MACHINE",
            description = "a startup as leat startups shows it, such as jet-1/17, or a machine")
    private String what;

    @Option(
            names = "--alarm",
            paramLabel = "ALARM",
            description = "an alarm, by number or id, as leat alarms shows it")
    private String alarm;

    @Option(
            names = "--score",
            description =
                    "how often leat was right: what it had said beside what people found, of one machine"
                            + " or of all")
    private boolean score;

    @Mixin private SiteChoice site;

    @Option(
            names = "--json",
            description =
                    "as one JSON document (config/why.schema.json; with --score config/score.schema.json)")
    private boolean asJson;

    @Option(names = "--ascii", description = "draw with plain characters")
    private boolean ascii;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        if (what != null && alarm != null) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.why.two");
        }
        SiteChoice.Chosen chosen = site.chosen();
        PrintWriter out = spec.commandLine().getOut();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            if (score) {
                WhyScore right = WhyScore.of(reader, scored(reader));
                if (asJson) {
                    out.println(right.json());
                } else {
                    right.print(chosen.shown(), width);
                }
                return ExitCode.DONE;
            }
            WhyAbout about = about(reader, chosen.site());
            PastDiagnosis past = PastDiagnosis.of(reader, about);
            if (asJson) {
                out.println(json(about, past.why()));
            } else {
                out.print(screen(reader, about, past, chosen));
            }
        }
        return ExitCode.DONE;
    }

    private List<String> scored(StoreReader reader) {
        List<String> machines = reader.machines();
        if (alarm != null || what != null && !machines.contains(what)) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.why.score", machines.toString());
        }
        return what == null ? machines : List.of(what);
    }

    private WhyAbout about(StoreReader reader, Optional<Site> now) {
        if (alarm != null) {
            return WhyAbout.alarm(alarm(reader), reader);
        }
        List<String> machines = reader.machines();
        if (what == null) {
            if (machines.size() != 1) {
                throw new CommandFailure.Expected(
                        ExitCode.WRONG,
                        machines.isEmpty() ? "cli.why.none" : "cli.why.which",
                        Saying.either(machines.stream().map(name -> "leat why " + name).toList()));
            }
            return WhyAbout.machine(machines.get(0), reader);
        }
        boolean isKnown = machines.contains(what) || now.flatMap(s -> s.machine(what)).isPresent();
        if (isKnown) {
            return WhyAbout.machine(what, reader);
        }
        return WhyAbout.start(
                StartupNumber.of(what)
                        .orElseThrow(
                                () ->
                                        new CommandFailure.Expected(
                                                ExitCode.WRONG,
                                                "cli.why.nothing-such",
                                                what,
                                                machines.toString()))
                        .in(reader));
    }

    private StoredAlarm alarm(StoreReader reader) {
        return reader.alarm(alarm)
                .orElseThrow(
                        () ->
                                new CommandFailure.Expected(
                                        ExitCode.WRONG, "cli.no-alarm.see", alarm));
    }

    private String screen(
            StoreReader reader, WhyAbout about, PastDiagnosis past, SiteChoice.Chosen chosen) {
        Shown shown = chosen.shown();
        Judging judging = judging(reader, about, chosen);
        WhyScreen screen =
                new WhyScreen(shown, Glyphs.of(ascii), judging.settings(), past.baseline());
        return screen.write(
                about.heading(shown),
                past.why(),
                about.start().map(StoredStartup::startup),
                about.start().flatMap(start -> StoredSpan.curve(reader, start)),
                about.notes(past.why(), shown),
                "leat answer " + about.answered());
    }

    private static Judging judging(StoreReader reader, WhyAbout about, SiteChoice.Chosen chosen) {
        String configHash =
                about.start()
                        .map(StoredStartup::configHash)
                        .or(() -> about.alarm().map(StoredAlarm::configHash))
                        .orElse("");
        return Judging.of(reader, about.machine(), configHash, chosen.site(), chosen.shown());
    }

    /** The document. */
    @Published("leat.why/1")
    record Told(
            String machine,
            @IfThere Optional<String> number,
            @IfThere OptionalLong startedAtMicros,
            @IfThere Optional<Long> alarm,
            int observations,
            int known,
            List<Answer> answers,
            List<WeighedCause> causes) {}

    private static String json(WhyAbout about, Diagnosis why) {
        Optional<Startup> startup = about.start().map(StoredStartup::startup);
        return Json.print(
                new Told(
                        about.machine(),
                        about.start().map(StoredStartup::name),
                        startup.map(s -> OptionalLong.of(s.startedAtMicros()))
                                .orElse(OptionalLong.empty()),
                        about.alarm().map(StoredAlarm::number),
                        why.observations(),
                        why.known(),
                        why.answers(),
                        WeighedCause.of(why)));
    }
}
