package leat.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;
import leat.watch.Outcome;

/** A store with one machine, jet-1, and one alarm, number 1, for tests of what is said about it. */
public final class OneAlarm {

    public static final String ID = "jet-1.ratio.20260105T060031Z";

    private OneAlarm() {}

    /** A file of its own for each test: a copy of the one that was written first. */
    public static void store(Path file) {
        try {
            Files.write(file, Written.BYTES);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Once for all tests; a closed store is one file. */
    private static final class Written {
        static final byte[] BYTES = write();

        private static byte[] write() {
            try {
                Path folder = Files.createTempDirectory("one-alarm");
                Path file = folder.resolve("leat.db");
                Batch batch = new Batch();
                batch.said(
                        "jet-1",
                        1,
                        new Outcome.AlarmChanged(InstructionBoxTest.raised(ID)),
                        "hash");
                try (Store store = Store.open(file)) {
                    store.startRun("test", "hash", "", 0);
                    store.commit(batch);
                }
                byte[] bytes = Files.readAllBytes(file);
                sweep(folder);
                return bytes;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        /** With the lock, and the database library where this was the first store of all tests. */
        private static void sweep(Path folder) throws IOException {
            try (Stream<Path> all = Files.walk(folder)) {
                for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(each);
                }
            }
        }
    }
}
