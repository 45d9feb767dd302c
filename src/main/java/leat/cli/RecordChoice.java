package leat.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDateTime;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import leat.bench.recording.Plan;
import leat.bench.recording.Recorder;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import leat.signal.LengthOfTime;
import leat.signal.PlainText;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** The options by which {@code leat simulate} writes a recording instead of playing on a wire. */
final class RecordChoice {

    private static final Duration LONGEST = Duration.ofDays(3_650);
    private static final long HOOK_SECONDS = 5;

    /** How long, said in one of three ways. */
    static final class Length {
        @Option(names = "--weeks", paramLabel = "N", description = "so many weeks of it")
        private Double weeks;

        @Option(names = "--days", paramLabel = "N", description = "so many days of it")
        private Double days;

        @Option(
                names = "--for",
                paramLabel = "TIME",
                description = "so much of it, such as 90s, 20min, 8h, 3d or 12w")
        private String time;
    }

    @Option(
            names = "--record",
            paramLabel = "FILE.csv",
            description = {
                "write a recording that leat replay reads, as fast as the computer goes, and beside it"
                        + " FILE.truth.csv with the true figures and faults of each start"
            })
    private Path file;

    @ArgGroup(exclusive = true)
    private Length length;

    @Option(
            names = "--rate",
            paramLabel = "HZ",
            description = "rows a second of a recording, 1 to 100 (default: 20)")
    private Double rateHz;

    @Option(
            names = "--rest-rate",
            paramLabel = "HZ",
            description = {
                "rows a second while the machine rests, 1 or more (default: as --rate). 1 makes a long"
                        + " recording a tenth as large"
            })
    private Double restHz;

    @Option(
            names = "--machine",
            paramLabel = "NAME",
            description = "which machine to record (default: the first)")
    private String machine;

    @Option(
            names = "--from",
            paramLabel = "TIME",
            description = {"when the recording begins, UTC (default: 2026-01-05T07:00, a Monday)"})
    private String from;

    @Option(names = "--force", description = "write over files that are there")
    private boolean force;

    boolean isAsked() {
        return file != null;
    }

    /** Whether there is anything here that makes no sense without {@code --record}. */
    boolean hasMore() {
        return length != null
                || rateHz != null
                || restHz != null
                || machine != null
                || from != null
                || force;
    }

    /** Writes the recording; returns the exit code. */
    int write(Scenario scenario, CommandSpec spec) throws IOException {
        Plan plan = plan(scenario);
        Path truth = Recorder.truthBeside(file);
        for (Path target : new Path[] {file, truth}) {
            if (Files.exists(target) && !force) {
                throw CommandFailure.Expected.worded(
                        ExitCode.FAILED, target + " is there already; --force writes over it.");
            }
        }
        PrintWriter out = spec.commandLine().getOut();
        AtomicBoolean givenUp = new AtomicBoolean();
        CountDownLatch over = new CountDownLatch(1);
        Thread hook = new Thread(() -> giveUp(givenUp, over), "record-end");
        Runtime.getRuntime().addShutdownHook(hook);
        RecordProgress far = new RecordProgress(plan.length(), System.nanoTime());
        try (Progress progress = Progress.on(spec.commandLine().getErr())) {
            Optional<Recorder.Done> done =
                    Recorder.record(
                            plan,
                            file,
                            now -> {
                                progress.show(() -> far.words(now, System.nanoTime()));
                                return !givenUp.get();
                            });
            done.ifPresent(written -> conclude(out, plan, written, truth));
            return done.isPresent() ? ExitCode.DONE : ExitCode.FAILED;
        } finally {
            over.countDown();
            unhook(hook);
        }
    }

    /** At Ctrl-C: no half file is left behind. */
    private static void giveUp(AtomicBoolean givenUp, CountDownLatch over) {
        givenUp.set(true);
        try {
            over.await(HOOK_SECONDS, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void unhook(Thread hook) {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException e) {
            // the program is being ended: the hook is at work and has been told
            return;
        }
    }

    private void conclude(PrintWriter out, Plan plan, Recorder.Done written, Path truth) {
        String others =
                plan.scenario().machineNames().size() > 1
                        ? " of " + String.join(", ", plan.scenario().machineNames())
                        : "";
        say(
                out,
                "%s: %s%s in scenario %s, %s from %s UTC, %s, %d rows.",
                file,
                plan.machine(),
                others,
                plan.scenario().name(),
                RecordProgress.words(plan.length()),
                plan.from(),
                written.starts() == 1 ? "1 start" : written.starts() + " starts",
                written.rows());
        say(out, "%s: what was true of each start. Everything in both is invented.", truth);
        say(out, "Look at it with: leat replay %s", file);
    }

    /** Names of files and of what stands in a scenario come from people. */
    private static void say(PrintWriter out, String sentence, Object... parts) {
        out.println(PlainText.harmless(sentence.formatted(parts)));
    }

    private Plan plan(Scenario scenario) {
        double rate = rateHz == null ? 20 : rateHz;
        double rest = restHz == null ? rate : restHz;
        String which = machine == null ? scenario.machineNames().get(0) : machine;
        try {
            return new Plan(scenario, which, begin(), howLong(scenario), rate, rest);
        } catch (IllegalArgumentException e) {
            throw CommandFailure.Expected.worded(
                    ExitCode.WRONG, "leat simulate: " + e.getMessage());
        }
    }

    private Duration howLong(Scenario scenario) {
        if (length == null) {
            return scenario.duration();
        }
        Duration asked = length.time == null ? ofDays(length) : ofWords(length.time);
        if (asked.isZero() || asked.isNegative() || asked.compareTo(LONGEST) > 0) {
            throw CommandFailure.Expected.worded(
                    ExitCode.WRONG,
                    "A recording is longer than nothing and at most ten years long.");
        }
        return asked;
    }

    private static Duration ofDays(Length length) {
        double days = length.weeks == null ? length.days : length.weeks * 7;
        double most = LONGEST.toDays() + 1.0;
        return Duration.ofMillis(Math.round(Math.min(Math.max(days, -1), most) * 86_400_000));
    }

    private static Duration ofWords(String words) {
        return LengthOfTime.read(words)
                .orElseThrow(
                        () ->
                                CommandFailure.Expected.worded(
                                        ExitCode.WRONG,
                                        "--for: '"
                                                + words
                                                + "' is no length of time. Allowed are such as 90s,"
                                                + " 20min, 8h, 3d and 12w."));
    }

    private LocalDateTime begin() {
        if (from == null) {
            return ScenarioRun.USUAL_START;
        }
        try {
            return LocalDateTime.parse(from.strip().replace(' ', 'T').replaceAll("[Zz]$", ""));
        } catch (DateTimeException e) {
            throw CommandFailure.Expected.worded(
                    ExitCode.WRONG,
                    "--from: '"
                            + from
                            + "' is no time. Allowed are such as 2026-01-05T07:00, UTC.");
        }
    }
}
