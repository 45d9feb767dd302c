package leat.replay;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.acquire.recording.ColumnNames;
import leat.acquire.recording.Recording;
import leat.signal.Input;
import leat.signal.Reading;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreReader;

/**
 * How fast a past is replayed through the full watch: from memory, from a store, from a CSV file.
 * Run by hand, with a folder to work in.
 */
final class ReplaySpeed {

    private static final int LAPS = 400;
    private static final int ROUNDS = 5;
    private static final long LAP_MICROS = 100_000_000;

    private ReplaySpeed() {}

    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        List<Input> inputs = new ArrayList<>();
        for (int lap = 0; lap < LAPS; lap++) {
            inputs.addAll(Played.of("demo", "jet-2").inputs(Played.START + lap * LAP_MICROS));
        }
        long samples = inputs.stream().filter(i -> i instanceof Reading).count();
        for (int round = 0; round < ROUNDS; round++) {
            time("memory", samples, inputs::forEach);
        }
        Path file = folder.resolve("speed.db");
        Files.deleteIfExists(file);
        try (Store store = Store.open(file)) {
            Batch batch = new Batch();
            for (int i = 0; i < inputs.size(); i++) {
                batch.fed("jet-2", i + 1, inputs.get(i));
                if (i % 50_000 == 0) {
                    store.commit(batch);
                    batch.clear();
                }
            }
            store.commit(batch);
        }
        try (StoreReader reader = StoreReader.open(file)) {
            StoredSpan span = new StoredSpan(reader, "jet-2", 0, Long.MAX_VALUE, "");
            for (int round = 0; round < ROUNDS; round++) {
                time("store", samples, span);
            }
        }
        Path csv = folder.resolve("speed.csv");
        writeCsv(csv, inputs);
        for (int round = 0; round < ROUNDS; round++) {
            time("CSV file", samples, Recording.open(csv, ColumnNames.OWN, Optional.empty())::read);
        }
    }

    private static void writeCsv(Path csv, List<Input> inputs) throws Exception {
        leat.acquire.recording.RecordingHead head =
                new leat.acquire.recording.RecordingHead(
                        "", "", "jet-2", java.time.ZoneOffset.UTC, "", "");
        try (leat.acquire.recording.RecordingWriter writer =
                new leat.acquire.recording.RecordingWriter(
                        Files.newBufferedWriter(csv), head, Played.WIRED)) {
            inputs.forEach(writer::write);
        }
    }

    private static void time(String what, long samples, Past past) {
        long start = System.nanoTime();
        Replayed replayed = Replay.of(Played.settings("jet-2"), past);
        double seconds = (System.nanoTime() - start) / 1e9;
        System.out.printf(
                Locale.ROOT,
                "%-9s %,d samples, %.2f M samples/s, %d startups, heap %d MB%n",
                what,
                samples,
                samples / seconds / 1e6,
                replayed.startups().size(),
                (Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory()) >> 20);
    }
}
