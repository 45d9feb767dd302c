package leat.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.signal.Tick;

/**
 * Measures commits: 64 machines of 2 channels at 20 Hz, one batch a second of event time, back to
 * back. Prints figures and judges nothing: run it by hand, with a folder on the disk of interest
 * and, if wanted, the number of seconds.
 */
final class CommitRate {

    private static final int MACHINES = 64;
    private static final int HERTZ = 20;

    private CommitRate() {}

    public static void main(String[] args) throws IOException {
        Path file = Files.createTempDirectory(Path.of(args[0]), "leat-rate").resolve("leat.db");
        int seconds = args.length > 1 ? Integer.parseInt(args[1]) : 120;
        long[] nanos = new long[seconds];
        long rows = 0;
        try (Store store = Store.open(file)) {
            for (int second = 0; second < seconds; second++) {
                Batch batch = second(second);
                long start = System.nanoTime();
                store.commit(batch);
                nanos[second] = System.nanoTime() - start;
                rows += batch.inputs();
            }
            print(nanos, rows, store);
            long start = System.nanoTime();
            long pruned = store.prune(seconds, seconds / 2);
            System.out.printf(
                    Locale.ROOT,
                    "pruned %d rows in %.1f ms%n",
                    pruned,
                    (System.nanoTime() - start) / 1e6);
        }
        System.out.printf(
                Locale.ROOT, "%.1f bytes a row%n", (double) file.toFile().length() / rows);
        long start = System.nanoTime();
        long[] read = {0};
        try (StoreReader reader = StoreReader.open(file)) {
            for (String machine : reader.machines()) {
                reader.inputs(machine, 0, Long.MAX_VALUE, (seq, input) -> read[0]++);
            }
        }
        double took = (System.nanoTime() - start) / 1e9;
        System.out.printf(Locale.ROOT, "read back %.0f rows/s%n", read[0] / took);
    }

    private static void print(long[] nanos, long rows, Store store) {
        long total = Arrays.stream(nanos).sum();
        long[] sorted = nanos.clone();
        Arrays.sort(sorted);
        System.out.printf(
                Locale.ROOT,
                "%d commits of %d rows: %.0f rows/s, median %.1f ms, worst %.1f ms, log %d KiB%n",
                nanos.length,
                rows / nanos.length,
                rows / (total / 1e9),
                sorted[sorted.length / 2] / 1e6,
                sorted[sorted.length - 1] / 1e6,
                store.walBytes() / 1024);
    }

    private static Batch second(int second) {
        Batch batch = new Batch();
        int inputs = 2 * HERTZ + 1;
        long seq = (long) second * inputs;
        for (int i = 0; i < HERTZ; i++) {
            long micros = second * Tick.PERIOD_MICROS + i * Tick.PERIOD_MICROS / HERTZ + 137;
            for (int m = 0; m < MACHINES; m++) {
                String machine = "jet-" + m;
                double wobble = Math.sin(micros + m);
                batch.fed(machine, seq + 2 * i, Reading.good(Channel.INLET, micros, 40 + wobble));
                batch.fed(
                        machine,
                        seq + 2 * i + 1,
                        Reading.good(Channel.BOOSTED, micros, 100 + wobble));
            }
        }
        for (int m = 0; m < MACHINES; m++) {
            batch.fed("jet-" + m, seq + inputs - 1, new Tick((second + 1) * Tick.PERIOD_MICROS));
            if (second % 30 == 0) {
                long last = seq + inputs - 1;
                batch.snapshot(new Snapshot("jet-" + m, last, 0, 1, new byte[4_000]));
            }
        }
        return batch;
    }
}
