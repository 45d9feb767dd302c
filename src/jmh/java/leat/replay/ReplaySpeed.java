package leat.replay;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.OperatingSystemMXBean;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import leat.acquire.recording.ColumnNames;
import leat.acquire.recording.Recording;
import leat.acquire.recording.RecordingHead;
import leat.acquire.recording.RecordingWriter;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * How fast a past is replayed through the full watch, on one core, from memory, from a store and
 * from a CSV file, each beside a yardstick: a bare loop that reads the same past and only looks at
 * it. And how much memory is in use when a past of 1, 4 and 16 times the length has been fed. It
 * judges nothing but that it ran to its end; no build runs it, since its name does not end in Test:
 *
 * <pre>mvn -q -B test -Dtest=ReplaySpeed</pre>
 *
 * <p>The measuring program has a heap of 48 MB and the collector of the systemd unit. Its past is a
 * day as the bench plays it: a start, an hour of strokes, a stop; invented.
 */
class ReplaySpeed {

    private static final String HEAP = "-Xmx48m";
    private static final int ROUNDS = 3;
    private static final int[] LENGTHS = {1, 4, 16};

    /** Laps of an hour, with 20 readings a second of two pressures and the run signal. */
    private static final int LAPS_IN_MEMORY = 24;

    private static final int LAPS_ON_DISK = 2;

    @TempDir Path folder;

    @Test
    void prints_samples_per_second_and_memory() throws Exception {
        Process measuring =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                HEAP,
                                "-XX:+UseSerialGC",
                                "-cp",
                                System.getProperty("java.class.path"),
                                ReplaySpeed.class.getName(),
                                folder.toString())
                        .redirectErrorStream(true)
                        .start();
        try (BufferedReader lines =
                new BufferedReader(
                        new InputStreamReader(
                                measuring.getInputStream(), StandardCharsets.UTF_8))) {
            lines.lines().forEach(System.out::println);
        } finally {
            measuring.destroy();
        }

        assertThat(measuring.waitFor()).isZero();
    }

    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        System.out.printf(
                "heap at most %d MB, Java %s, %d processors%n",
                Runtime.getRuntime().maxMemory() >> 20,
                Runtime.version(),
                Runtime.getRuntime().availableProcessors());
        Hour hour = new Hour();
        for (int round = 0; round < 2 * ROUNDS; round++) {
            measure("memory", hour.times(LAPS_IN_MEMORY));
        }
        for (int length : LENGTHS) {
            memory("memory", hour.times(LAPS_IN_MEMORY * length));
        }
        fromStore(folder.resolve("speed.db"), hour);
        fromCsv(folder, hour);
    }

    private static void fromStore(Path file, Hour hour) {
        long[] last = {0};
        try (Store store = Store.open(file)) {
            Batch batch = new Batch();
            hour.times(LAPS_ON_DISK * 16)
                    .read(
                            input -> {
                                batch.fed("jet-1", ++last[0], input);
                                if (last[0] % 10_000 == 0) {
                                    store.commit(batch);
                                    batch.clear();
                                }
                            });
            store.commit(batch);
        }
        try (StoreReader reader = StoreReader.open(file)) {
            for (int round = 0; round < ROUNDS; round++) {
                measure("store", new StoredSpan(reader, "jet-1", 0, last[0] / 4, ""));
            }
            for (int length : LENGTHS) {
                memory("store", new StoredSpan(reader, "jet-1", 0, last[0] / 16 * length, ""));
            }
        }
    }

    private static void fromCsv(Path folder, Hour hour) throws IOException {
        Past first = csv(folder.resolve("4.csv"), hour.times(LAPS_ON_DISK * 4));
        for (int round = 0; round < ROUNDS; round++) {
            measure("CSV", first);
        }
        for (int length : LENGTHS) {
            memory(
                    "CSV",
                    csv(
                            folder.resolve("of-" + length + ".csv"),
                            hour.times(LAPS_ON_DISK * length)));
        }
    }

    private static Past csv(Path file, Past past) throws IOException {
        RecordingHead head = new RecordingHead("", "", "jet-1", ZoneOffset.UTC, "", "");
        try (RecordingWriter writer =
                new RecordingWriter(Files.newBufferedWriter(file), head, Played.WIRED)) {
            past.read(writer::write);
        }
        return into -> Recording.open(file, ColumnNames.OWN, Optional.empty()).read(into);
    }

    /** One line: replay and yardstick over the same past, one after the other. */
    private static void measure(String what, Past past) {
        long[] seen = {0, 0};
        long start = cpuNanos();
        past.read(input -> look(input, seen));
        long bare = cpuNanos() - start;
        long wall = System.nanoTime();
        start = cpuNanos();
        Replayed replayed = Replay.of(Played.settings("jet-1"), past);
        long cpu = cpuNanos() - start;
        wall = System.nanoTime() - wall;
        System.out.printf(
                Locale.ROOT,
                "%-6s %,11d samples: replay %5.2f M samples a second of one core (%5.2f by the clock on the"
                        + " wall), bare loop %6.2f; %d startups (%d)%n",
                what,
                seen[0],
                seen[0] * 1e3 / cpu,
                seen[0] * 1e3 / wall,
                seen[0] * 1e3 / bare,
                replayed.startups().size(),
                seen[1] & 1);
    }

    /** Of the whole program, its collector and compiler included: other programs do not matter. */
    private static long cpuNanos() {
        return ((OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean())
                .getProcessCpuTime();
    }

    private static void look(Input input, long[] seen) {
        seen[1] += input.atMicros();
        if (input instanceof Reading) {
            seen[0]++;
        }
    }

    /** One line: what is in use when everything has been fed and nothing is let go yet. */
    private static void memory(String what, Past past) {
        Replay replay = new Replay(Played.settings("jet-1"));
        past.read(replay);
        long byReplay = usedKb();
        Replayed replayed = replay.end();
        long samples = replayed.counts().samples();
        long toMicros = replayed.toMicros();
        int startups = replayed.startups().size();
        replay = new Replay(Played.settings("jet-1"));
        replayed = replay.end();
        Calls calls = new Calls(Played.settings("jet-1"), 0);
        past.read(calls);
        long byBacktest = usedKb();
        int called = calls.end(toMicros).size();
        System.out.printf(
                Locale.ROOT,
                "%-6s %,11d samples: heap in use after a collection %,6d KB by replay (%d startups), %,6d KB by"
                        + " a backtest's watch (%d calls)%n",
                what,
                samples,
                byReplay,
                startups,
                byBacktest,
                called);
    }

    private static long usedKb() {
        for (int i = 0; i < 3; i++) {
            System.gc();
        }
        Runtime runtime = Runtime.getRuntime();
        return (runtime.totalMemory() - runtime.freeMemory()) >> 10;
    }

    /**
     * An hour of the bench's healthy machine: its start, then the same 27 s of strokes over and
     * over, then its stop. Every input is made when it is asked for, so that the past takes no
     * memory.
     */
    private static final class Hour {

        private static final long STEP_MICROS = 50_000;
        private static final int STEPS = 72_000;
        private static final int STROKES_FROM = 400;
        private static final int STOP_FROM = 940;

        private final double[] inlet = column(Channel.INLET);
        private final double[] boosted = column(Channel.BOOSTED);
        private final double[] running = column(Channel.RUNNING);

        private static double[] column(Channel channel) {
            return Played.of("healthy", "jet-1").inputs(0).stream()
                    .filter(i -> i instanceof Reading r && r.channel() == channel)
                    .mapToDouble(i -> ((Reading) i).value())
                    .toArray();
        }

        Past times(int laps) {
            return into -> {
                for (int lap = 0; lap < laps; lap++) {
                    lap(Played.START + lap * STEPS * STEP_MICROS, into);
                }
            };
        }

        private void lap(long start, Consumer<Input> into) {
            for (int step = 0; step < STEPS; step++) {
                long at = start + step * STEP_MICROS;
                int from = sample(step);
                into.accept(Reading.good(Channel.INLET, at, inlet[from]));
                into.accept(Reading.good(Channel.BOOSTED, at, boosted[from]));
                into.accept(Reading.good(Channel.RUNNING, at, running[from]));
                if (at % Tick.PERIOD_MICROS == 0) {
                    into.accept(new Tick(at));
                }
            }
        }

        private int sample(int step) {
            int left = STEPS - step;
            if (left <= inlet.length - STOP_FROM) {
                return inlet.length - left;
            }
            return step < STOP_FROM
                    ? step
                    : STROKES_FROM + (step - STOP_FROM) % (STOP_FROM - STROKES_FROM);
        }
    }
}
