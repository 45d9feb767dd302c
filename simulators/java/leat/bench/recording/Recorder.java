package leat.bench.recording;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.bench.line.LineState;
import leat.bench.scenario.Sample;
import leat.bench.scenario.ScenarioRun;

/** Plays a plan into two files, which appear when they are whole. Thread-confined. */
public final class Recorder {

    private static final long LOOK_MICROS = 60_000_000;

    /** Hears how far it is. */
    @FunctionalInterface
    public interface Progress {

        /**
         * Told after each minute played.
         *
         * @return false to give up
         */
        boolean goOn(Done done);
    }

    /**
     * How far it is.
     *
     * @param played so much of the scenario
     * @param starts measured so far
     * @param rows written so far
     * @param bytes of the recording so far
     */
    public record Done(Duration played, long starts, long rows, long bytes) {}

    private final Plan plan;
    private final ScenarioRun run;
    private final TruthMeter meter = new TruthMeter();

    private Recorder(Plan plan) {
        this.plan = plan;
        run = new ScenarioRun(plan.scenario(), plan.rateHz(), plan.from(), List.of(plan.machine()));
    }

    /** The file beside a recording that says what was true: {@code out.truth.csv}. */
    public static Path truthBeside(Path recording) {
        String name = recording.getFileName().toString();
        String bare = name.endsWith(".csv") ? name.substring(0, name.length() - 4) : name;
        return recording.resolveSibling(bare + ".truth.csv");
    }

    /**
     * Writes a recording and what was true beside it.
     *
     * @return what was written; nothing where it was told to give up, and then no file is left
     * @throws IOException if it cannot be written; then no half file is left
     */
    public static Optional<Done> record(Plan plan, Path recording, Progress progress)
            throws IOException {
        Path truth = truthBeside(recording);
        Path part = recording.resolveSibling(recording.getFileName() + ".part");
        Path truthPart = truth.resolveSibling(truth.getFileName() + ".part");
        try {
            Optional<Done> done = new Recorder(plan).write(part, truthPart, progress);
            if (done.isPresent()) {
                Files.move(truthPart, truth, StandardCopyOption.REPLACE_EXISTING);
                Files.move(part, recording, StandardCopyOption.REPLACE_EXISTING);
            }
            return done;
        } catch (UncheckedIOException e) {
            throw e.getCause();
        } finally {
            Files.deleteIfExists(part);
            Files.deleteIfExists(truthPart);
        }
    }

    private Optional<Done> write(Path part, Path truthPart, Progress progress) throws IOException {
        try (Writer out = Files.newBufferedWriter(part);
                Writer truthOut = Files.newBufferedWriter(truthPart)) {
            long period = Math.round(1e6 / plan.rateHz());
            CsvRows rows = new CsvRows(out, plan.from(), period, pauses(), comment());
            TruthRows truth = new TruthRows(truthOut, plan.from(), comment());
            Thinning thinning = new Thinning(plan.restHz(), rows::write);
            boolean all = plan.restHz() == plan.rateHz();
            long nextLook = LOOK_MICROS;
            while (run.nextMicros() * 1_000 < plan.length().toNanos()) {
                Sample sample =
                        run.next((micros, machine, state) -> see(micros, state, truth)).get(0);
                if (sample.micros() == 0) {
                    meter.before(sample.truth());
                }
                LoggedSample row = LoggedSample.of(sample);
                if (all) {
                    rows.write(row);
                } else {
                    thinning.add(row);
                }
                if (sample.micros() >= nextLook) {
                    nextLook += LOOK_MICROS;
                    if (!progress.goOn(done(sample.micros(), truth, rows))) {
                        return Optional.empty();
                    }
                }
            }
            thinning.end();
            rows.end();
            Optional<TrueStart> last = meter.end(this::defects);
            if (last.isPresent()) {
                truth.write(last.get());
            }
            return Optional.of(done(plan.length().toNanos() / 1_000, truth, rows));
        }
    }

    private boolean pauses() {
        return plan.scenario().pausing().contains(plan.machine());
    }

    private static Done done(long micros, TruthRows truth, CsvRows rows) {
        Duration played = Duration.ofNanos(micros * 1_000);
        return new Done(played, truth.starts(), rows.rows(), rows.bytes());
    }

    private void see(long micros, LineState state, TruthRows truth) {
        try {
            Optional<TrueStart> ended = meter.see(micros, state, this::defects);
            if (ended.isPresent()) {
                truth.write(ended.get());
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private List<String> defects() {
        return run.defects(plan.machine());
    }

    /** No word on when or where: the same plan gives the same bytes. */
    private String comment() {
        return String.format(
                Locale.ROOT,
                "Invented, for trying and measuring: scenario %s, machine %s, seed %d, from %sZ",
                plan.scenario().name(),
                plan.machine(),
                plan.scenario().seed(),
                plan.from());
    }
}
