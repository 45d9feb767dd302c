package leat.store;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.signal.TwoPoint;

/**
 * Measures commits: machines of 2 channels at 20 Hz by a converter of 12 bits, one batch a second
 * of event time, back to back, with what else the engine asks of the store each second. Prints
 * figures and judges nothing: run it by hand.
 *
 * <pre>
 * java -cp ... leat.store.CommitRate FOLDER [machines, 64] [seconds, 5400]
 * </pre>
 *
 * <p>Written bytes are those of {@code /proc/self/io}: what went to the disk, whatever the file
 * system makes of it. The yardstick is a bare insert of three columns, 82 rows a commit, by the
 * same driver and with the same durability.
 */
final class CommitRate {

    private static final int HERTZ = 20;
    private static final int INPUTS = 2 * HERTZ + 1;
    private static final long SEALING_NANOS = 15_000_000;
    private static final TwoPoint LOOP = new TwoPoint(0, 0, 4_096, 20.48);
    private static final TwoPoint PRESSURE = new TwoPoint(4, 0, 20, 200);

    private final int machines;
    private final int seconds;
    private final Random random = new Random(1);

    private CommitRate(int machines, int seconds) {
        this.machines = machines;
        this.seconds = seconds;
    }

    public static void main(String[] args) throws IOException, SQLException {
        Locale.setDefault(Locale.ROOT);
        Path folder = Files.createTempDirectory(Path.of(args[0]), "leat-rate");
        int machines = args.length > 1 ? Integer.parseInt(args[1]) : 64;
        int seconds = args.length > 2 ? Integer.parseInt(args[2]) : 5_400;
        bare(folder.resolve("bare.db"), machines, Math.min(seconds, 600));
        new CommitRate(machines, seconds).measure(folder.resolve("leat.db"));
    }

    private static void bare(Path file, int machines, int seconds)
            throws IOException, SQLException {
        int rows = 2 * HERTZ * machines;
        long written = written();
        long began = cpuNanos();
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file)) {
            try (Statement set = connection.createStatement()) {
                set.execute("PRAGMA journal_mode = WAL");
                set.execute("PRAGMA synchronous = FULL");
                set.execute("CREATE TABLE t (a INTEGER, b INTEGER, c REAL)");
            }
            connection.setAutoCommit(false);
            try (PreparedStatement insert =
                    connection.prepareStatement("INSERT INTO t VALUES (?, ?, ?)")) {
                for (int second = 0; second < seconds; second++) {
                    for (int row = 0; row < rows; row++) {
                        insert.setLong(1, row);
                        insert.setLong(2, 1_767_225_600_000_000L + second);
                        insert.setDouble(3, row / 3.0);
                        insert.addBatch();
                    }
                    insert.executeBatch();
                    connection.commit();
                }
            }
        }
        long all = (long) rows * seconds;
        System.out.printf(
                "bare insert: %.2f us CPU and %.0f bytes written a row%n",
                (cpuNanos() - began) / 1e3 / all, (double) (written() - written) / all);
    }

    private void measure(Path file) throws IOException {
        long[] commits = new long[seconds];
        long[] sealing = new long[seconds];
        long readings = 2L * HERTZ * machines * seconds;
        long written = written();
        long cpu = 0;
        try (Store store = Store.open(file)) {
            for (int second = 0; second < seconds; second++) {
                Batch batch = second(second);
                long cpuBefore = cpuNanos();
                long start = System.nanoTime();
                store.commit(batch);
                long committed = System.nanoTime();
                while (store.seal() && System.nanoTime() - committed < SEALING_NANOS) {
                    // as the engine does
                }
                commits[second] = committed - start;
                sealing[second] = System.nanoTime() - committed;
                cpu += cpuNanos() - cpuBefore;
            }
        }
        System.out.printf(
                "store, %d machines, %d s: %.2f us CPU and %.0f bytes written a reading%n",
                machines, seconds, cpu / 1e3 / readings, (double) (written() - written) / readings);
        print("commit", commits);
        print("sealing", sealing);
        try (Db db = Db.reading(file)) {
            System.out.printf(
                    "%.2f bytes a reading in segments, %.1f of the file in all%n",
                    db.number("SELECT 1000 * sum(length(body)) / sum(samples) FROM segment") / 1e3,
                    (double) file.toFile().length() / readings);
        }
        long start = cpuNanos();
        long[] read = {0};
        try (StoreReader reader = StoreReader.open(file)) {
            for (String machine : reader.machines()) {
                reader.inputs(machine, 0, Long.MAX_VALUE, (seq, input) -> read[0]++);
            }
        }
        System.out.printf(
                "read back, %.2f million inputs a second of CPU%n",
                1e3 * read[0] / (cpuNanos() - start));
    }

    private static void print(String what, long[] nanos) {
        long[] sorted = nanos.clone();
        Arrays.sort(sorted);
        System.out.printf(
                "%s: p50 %.1f ms, p99 %.1f ms, longest %.1f ms%n",
                what,
                sorted[sorted.length / 2] / 1e6,
                sorted[(int) (sorted.length * 0.99)] / 1e6,
                sorted[sorted.length - 1] / 1e6);
    }

    private static long cpuNanos() {
        return ((com.sun.management.OperatingSystemMXBean)
                        ManagementFactory.getOperatingSystemMXBean())
                .getProcessCpuTime();
    }

    private static long written() throws IOException {
        return Files.readAllLines(Path.of("/proc/self/io")).stream()
                .filter(line -> line.startsWith("write_bytes:"))
                .mapToLong(line -> Long.parseLong(line.split(" ")[1]))
                .sum();
    }

    private Batch second(int second) {
        Batch batch = new Batch();
        long seq = (long) second * INPUTS;
        long base = 1_767_225_600_000_000L + second * Tick.PERIOD_MICROS;
        for (int m = 0; m < machines; m++) {
            String machine = "jet-" + m;
            long next = seq;
            for (int i = 0; i < HERTZ; i++) {
                long late = random.nextInt(2) * 1_000L;
                long micros = base + i * Tick.PERIOD_MICROS / HERTZ + late;
                batch.fed(machine, ++next, Reading.good(Channel.INLET, micros, psi(40)));
                batch.fed(machine, ++next, Reading.good(Channel.BOOSTED, micros, psi(100)));
            }
            batch.fed(machine, ++next, new Tick(base + Tick.PERIOD_MICROS));
            if (second % 60 == 0) {
                batch.snapshot(new Snapshot(machine, next, 0, 1, new byte[4_000]));
            }
        }
        return batch;
    }

    private double psi(double level) {
        double counts = LOOP.inputFor(PRESSURE.inputFor(level)) + 0.8 * random.nextGaussian();
        return PRESSURE.at(LOOP.at(Math.rint(counts)));
    }
}
