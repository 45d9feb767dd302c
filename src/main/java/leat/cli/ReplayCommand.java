package leat.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import leat.acquire.recording.ColumnNames;
import leat.acquire.recording.Recording;
import leat.config.Site;
import leat.replay.Account;
import leat.replay.JudgedStartup;
import leat.replay.Past;
import leat.replay.Replay;
import leat.replay.ReplayJson;
import leat.replay.Replayed;
import leat.replay.StartupStory;
import leat.replay.StoredSpan;
import leat.replay.StoredStory;
import leat.replay.StoredWhy;
import leat.report.Glyphs;
import leat.report.Shown;
import leat.report.StartupPage;
import leat.report.StartupView;
import leat.rule.Learning;
import leat.signal.LengthOfTime;
import leat.signal.PlainText;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.words.FaultWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "replay",
        mixinStandardHelpOptions = true,
        description = {
            "Runs leat's judgement again over a recording (a CSV file), a stored startup, or a span of the"
                    + " store, and tells what was measured, what fired and why. Nothing stored is changed.",
            "A file that leat exported is judged by the configuration in it, unless --site is given; another"
                    + " CSV file by --site or the default limits; what is stored, by the configuration of its time.",
            "Columns of a CSV file: time or time_s, boosted_psi, and perhaps inlet_psi, filtered_psi, running,"
                    + " valve, cutting; _bar or _kpa likewise; or others by --column. Its numbers are answered in the"
                    + " unit of the file."
        })
final class ReplayCommand implements Callable<Integer> {

    private static final Duration LEAST_HOLD = Duration.ofSeconds(1);
    private static final Duration LONGEST_HOLD = Duration.ofDays(1);

    @Mixin private SiteChoice site;
    @Mixin private SpanChoice span;

    @Parameters(
            arity = "0..1",
            paramLabel = "FILE|NUMBER",
            description = "a CSV file, or a startup as leat startups shows it, such as jet-1/17")
    private String what;

    @Option(
            names = "--column",
            paramLabel = "WHAT=NAME[:UNIT|CODES]",
            description = {
                "a column of the file by its name: boosted=\"P out:bar\" (psi, bar or kPa) or time=Zeit.",
                "A contact may be on at certain codes only: running=state:2,16"
            })
    private Map<String, String> columns = new LinkedHashMap<>();

    @Option(
            names = "--zone",
            paramLabel = "ZONE",
            description = "time zone of local times in the file, such as Europe/London")
    private String zone;

    @Option(
            names = "--hold",
            paramLabel = "TIME",
            description = {
                "for a log that was written only when a value changed: each holds for so long at most, such as"
                        + " 10s. Then a gauge that is stuck cannot be found, and a rise is known to a second"
                        + " at best"
            })
    private String hold;

    @Option(
            names = "--baseline",
            paramLabel = "FILE",
            description = {
                "a recording of the same machine when it was sound, in the form of FILE: the causes are"
                        + " weighed against its starts. May be given again; ten starts are enough"
            })
    private List<Path> baselines = new ArrayList<>();

    @Option(names = "--json", description = "as one JSON document (config/replay.schema.json)")
    private boolean asJson;

    @Option(names = "--ascii", description = "draw with plain characters")
    private boolean ascii;

    @Option(
            names = "--report",
            paramLabel = "FILE.html",
            description = "also write a startup as one self-contained page, to read, print or mail")
    private Path report;

    @Option(
            names = "--start",
            paramLabel = "N",
            converter = AtMost.class,
            description =
                    "which startup of a file or span it is about, counted from 1 (default: the one"
                            + " with which it ends, else the gravest)")
    private Integer which;

    @Option(
            names = "--against",
            paramLabel = "NUMBER",
            description = "lay a stored startup over it on the page, such as jet-1/3")
    private String against;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        if (what == null && !span.isGiven()) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.replay.what");
        }
        Optional<StartupNumber> number =
                Optional.ofNullable(what)
                        .filter(word -> !Files.exists(Path.of(word)))
                        .flatMap(StartupNumber::of);
        if (what != null && number.isEmpty()) {
            return file(Path.of(what));
        }
        if (hold != null || zone != null || !columns.isEmpty() || !baselines.isEmpty()) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.replay.for-file");
        }
        if (number.isPresent() && which != null) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.replay.start-for");
        }
        return stored(number);
    }

    private int file(Path file) {
        Optional<Site> given = site.given();
        Recording recording = recording(file, given);
        Judging judging = judging(recording, given);
        Optional<SoundStarts> sound = sound(given);
        Replayed alone = Replay.of(judging.settings(), recording::read);
        Replayed replayed =
                chosen(sound.map(SoundStarts::reference).map(alone::comparedWith).orElse(alone));
        List<String> notes = new ArrayList<>(judging.notes());
        FaultWords said = new FaultWords(judging.shown().phrases());
        recording.notes().stream().map(said::of).forEach(notes::add);
        sound.map(starts -> starts.note().in(judging.shown().phrases())).ifPresent(notes::add);
        show(
                replayed,
                recording::read,
                judging,
                recording.zeroMicros(),
                Optional.empty(),
                notes,
                Optional.empty());
        if (report != null) {
            String source = given.map(Site::name).orElse(file.getFileName().toString());
            if (against == null) {
                page(
                        source,
                        replayed,
                        recording::read,
                        judging,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty());
            } else {
                try (StoreReader reader = StoreReader.open(site.chosen().database())) {
                    page(
                            source,
                            replayed,
                            recording::read,
                            judging,
                            other(reader, judging.shown()),
                            Optional.empty(),
                            Optional.empty());
                }
            }
        }
        return ExitCode.DONE;
    }

    private Recording recording(Path file, Optional<Site> given) {
        Optional<ZoneId> local = Optional.ofNullable(zone).map(ReplayCommand::zone);
        Recording recording =
                Recording.open(file, columnNames(), local.or(() -> given.map(Site::zone)), held());
        if (hold != null && recording.head().isPresent()) {
            throw new CommandFailure.Expected(
                    ExitCode.WRONG, "cli.replay.no-hold", file.toString());
        }
        return recording;
    }

    private Judging judging(Recording recording, Optional<Site> given) {
        return Judging.of(recording, given, span.machine(), site.asked());
    }

    /** What recordings of the machine when it was sound say of it. */
    private Optional<SoundStarts> sound(Optional<Site> given) {
        return baselines.isEmpty()
                ? Optional.empty()
                : Optional.of(SoundStarts.of(baselines, file -> replayed(file, given)));
    }

    private Replayed replayed(Path file, Optional<Site> given) {
        Recording recording = recording(file, given);
        return Replay.of(judging(recording, given).settings(), recording::read);
    }

    private int stored(Optional<StartupNumber> number) {
        SiteChoice.Chosen chosen = site.chosen();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            Optional<StoredStartup> startup = number.map(n -> n.in(reader));
            StoredSpan past =
                    startup.map(s -> span.of(reader, s))
                            .orElseGet(() -> span.between(reader, chosen.shown().zone()));
            Judging judging =
                    Judging.of(
                            reader,
                            past.machine(),
                            past.configHash(),
                            chosen.site(),
                            chosen.shown());
            Replayed anew = Replay.of(judging.settings().knowing(past.baseline()), past);
            Replayed fresh = startup.map(anew::about).orElseGet(() -> chosen(anew));
            List<String> notes = new ArrayList<>(judging.notes());
            startup.ifPresent(s -> notes.addAll(differs(s, anew, judging.shown())));
            startup.filter(s -> !asJson)
                    .flatMap(ReplayCommand::unjudged)
                    .map(key -> judging.shown().say(key))
                    .ifPresent(notes::add);
            Replayed replayed = startup.flatMap(StoredStartup::run).map(fresh::with).orElse(fresh);
            Optional<StoredWhy> why = startup.map(s -> StoredStory.why(reader, s));
            show(
                    asJson ? fresh : replayed,
                    past,
                    judging,
                    OptionalLong.empty(),
                    past.learning(),
                    notes,
                    why);
            if (report != null) {
                String source = chosen.site().map(Site::name).orElse(chosen.database().toString());
                JudgedStartup judged = told(replayed);
                page(
                        source,
                        replayed,
                        past,
                        judging,
                        other(reader, judging.shown()),
                        StoredStory.typical(past, judged, judging.shown()),
                        why);
            }
        }
        return ExitCode.DONE;
    }

    /** A replay of one startup does not know the starts before it. */
    private static List<String> differs(StoredStartup stored, Replayed replayed, Shown shown) {
        boolean found =
                replayed.startups().stream()
                        .anyMatch(
                                s ->
                                        s.startup().equals(stored.startup())
                                                && s.verdict().equals(stored.verdict()));
        return found
                ? List.of()
                : List.of(
                        shown.say(
                                "cli.replay.differs",
                                shown.verdict(stored.verdict().outcome()),
                                shown.findings().note(stored.verdict())));
    }

    /** Why there is no verdict on the run of a startup: key of the phrase. */
    private static Optional<String> unjudged(StoredStartup stored) {
        if (stored.run().isPresent()) {
            return Optional.empty();
        }
        return Optional.of(stored.lasting() ? "cli.replay.lasts" : "cli.replay.unjudged");
    }

    private void show(
            Replayed replayed,
            Past past,
            Judging judging,
            OptionalLong zeroMicros,
            Optional<Learning> learning,
            List<String> notes,
            Optional<StoredWhy> why) {
        PrintWriter out = spec.commandLine().getOut();
        if (asJson) {
            out.println(new ReplayJson(judging.configHash(), zeroMicros).write(replayed));
            notes.forEach(note -> spec.commandLine().getErr().println(PlainText.harmless(note)));
            return;
        }
        Glyphs glyphs = Glyphs.of(ascii);
        Account account = new Account(judging.shown(), glyphs, zeroMicros, learning);
        out.print(account.write(replayed.atEnd(), past, notes, why));
    }

    private void page(
            String source,
            Replayed replayed,
            Past past,
            Judging judging,
            Optional<StartupView.Overlay> other,
            Optional<StartupView.Overlay> typical,
            Optional<StoredWhy> why) {
        StartupView view =
                StartupStory.of(
                        source, replayed, past, told(replayed.atEnd()), other, typical, why);
        try {
            Files.writeString(report, StartupPage.of(view, judging.shown()));
        } catch (IOException e) {
            throw new CommandFailure.Expected(
                    ExitCode.FAILED, "cli.replay.no-page", report.toString(), e.toString());
        }
        spec.commandLine()
                .getErr()
                .println(PlainText.harmless(judging.shown().say("cli.written", report.toString())));
    }

    /** Told of the start that --start names; of a file or a span. */
    private Replayed chosen(Replayed replayed) {
        if (which == null) {
            return replayed;
        }
        if (replayed.startups().size() < which) {
            throw new CommandFailure.Expected(
                    ExitCode.WRONG,
                    "cli.replay.start-count",
                    which.toString(),
                    Integer.toString(replayed.startups().size()));
        }
        return replayed.about(replayed.startups().get(which - 1));
    }

    /** The startup that the page is about. */
    private static JudgedStartup told(Replayed replayed) {
        return replayed.told()
                .orElseThrow(
                        () -> new CommandFailure.Expected(ExitCode.WRONG, "cli.replay.no-starts"));
    }

    /** The stored startup to lay over. */
    private Optional<StartupView.Overlay> other(StoreReader reader, Shown shown) {
        if (against == null) {
            return Optional.empty();
        }
        StoredStartup stored =
                StartupNumber.of(against)
                        .orElseThrow(
                                () ->
                                        new CommandFailure.Expected(
                                                ExitCode.WRONG, "cli.replay.against", against))
                        .in(reader);
        return Optional.of(overlay(reader, stored, StoredStory.label(stored, shown)));
    }

    private StartupView.Overlay overlay(StoreReader reader, StoredStartup stored, String label) {
        return StartupStory.overlay(label, span.of(reader, stored), stored.startup());
    }

    private Optional<Duration> held() {
        if (hold == null) {
            return Optional.empty();
        }
        return Optional.of(
                LengthOfTime.read(hold)
                        .filter(time -> time.compareTo(LEAST_HOLD) >= 0)
                        .filter(time -> time.compareTo(LONGEST_HOLD) <= 0)
                        .orElseThrow(
                                () ->
                                        new CommandFailure.Expected(
                                                ExitCode.WRONG, "cli.replay.hold", hold)));
    }

    private ColumnNames columnNames() {
        try {
            return ColumnNames.of(columns);
        } catch (IllegalArgumentException e) {
            throw CommandFailure.Expected.worded(ExitCode.WRONG, "--column: " + e.getMessage());
        }
    }

    private static ZoneId zone(String name) {
        try {
            return ZoneId.of(name);
        } catch (DateTimeException e) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.replay.zone", name);
        }
    }
}
