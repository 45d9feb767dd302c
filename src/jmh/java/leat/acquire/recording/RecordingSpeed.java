package leat.acquire.recording;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.signal.Tick;

/** How fast recordings are written and read; run by hand, with a folder to work in. */
final class RecordingSpeed {

    private static final int ROWS = 2_000_000;
    private static final int ROUNDS = 4;
    private static final long SIX = 1_767_592_800_000_000L;

    private RecordingSpeed() {}

    public static void main(String[] arguments) throws IOException {
        Path own = Path.of(arguments[0], "own.csv");
        Path foreign = Path.of(arguments[0], "foreign.csv");
        for (int round = 0; round < ROUNDS; round++) {
            time("write own", own, () -> writeOwn(own));
            time("read own", own, () -> read(own));
        }
        writeForeign(foreign);
        for (int round = 0; round < ROUNDS; round++) {
            time("read foreign", foreign, () -> read(foreign));
        }
    }

    private interface Work {
        void run() throws IOException;
    }

    private static void time(String what, Path file, Work work) throws IOException {
        long start = System.nanoTime();
        work.run();
        double seconds = (System.nanoTime() - start) / 1e9;
        System.out.printf(
                Locale.ROOT,
                "%-13s %.2f M rows/s, %.0f MB/s, heap %d MB%n",
                what,
                ROWS / seconds / 1e6,
                Files.size(file) / seconds / 1e6,
                (Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory()) >> 20);
    }

    /** Raw counts of a converter, scaled as a transducer is: most have 15 to 17 digits. */
    private static void writeOwn(Path file) throws IOException {
        RecordingHead head =
                new RecordingHead("0", "yard", "jet-1", java.time.ZoneOffset.UTC, "", "");
        Random random = new Random(1);
        try (RecordingWriter writer =
                new RecordingWriter(
                        Files.newBufferedWriter(file),
                        head,
                        EnumSet.of(Channel.INLET, Channel.BOOSTED))) {
            for (int i = 0; i < ROWS; i++) {
                long at = SIX + i * 50_000L;
                writer.write(Reading.good(Channel.INLET, at, psi(1500 + random.nextInt(9))));
                writer.write(Reading.good(Channel.BOOSTED, at, psi(2400 + random.nextInt(9))));
                if (i % 20 == 0) {
                    writer.write(new Tick(at));
                }
            }
        }
    }

    private static double psi(int counts) {
        return (counts * 20.5 / 4095 - 4) * 200 / 16;
    }

    private static void writeForeign(Path file) throws IOException {
        Random random = new Random(1);
        try (BufferedWriter out = Files.newBufferedWriter(file)) {
            out.write("time;inlet_bar;boosted_bar\n");
            for (int i = 0; i < ROWS; i++) {
                out.write(
                        String.format(
                                Locale.ROOT,
                                "2026-01-%02d %02d:%02d:%02d,%03d;3,%02d;7,%02d\n",
                                5 + i / 1_728_000,
                                i / 72_000 % 24,
                                i / 1200 % 60,
                                i / 20 % 60,
                                i % 20 * 50,
                                random.nextInt(99),
                                random.nextInt(99)));
            }
        }
    }

    private static void read(Path file) {
        long[] count = new long[1];
        Recording.open(file, ColumnNames.OWN, Optional.empty()).read(input -> count[0]++);
        if (count[0] < 2L * ROWS) {
            throw new IllegalStateException(count[0] + " inputs");
        }
    }
}
