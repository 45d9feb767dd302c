package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreReader;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the store holds, and a copy of it. */
class StoreCommandTest {

    private static final long BEGIN = 1_767_592_800_000_000L;

    @TempDir Path folder;

    private Path file;

    @BeforeEach
    void fill() {
        file = folder.resolve("leat.db");
        try (Store store = Store.open(file)) {
            Batch batch = new Batch();
            for (int second = 0; second < 5_000; second++) {
                long at = BEGIN + second * Tick.PERIOD_MICROS;
                batch.fed("jet-1", 2L * second + 1, Reading.good(Channel.INLET, at, second % 5));
                batch.fed("jet-1", 2L * second + 2, new Tick(at + Tick.PERIOD_MICROS));
            }
            store.commit(batch);
            while (store.seal()) {
                // until the last hour is left
            }
        }
    }

    @Test
    void what_is_held_since_when_and_its_size_are_told() {
        Ran ran = Ran.leat("store", "--store", file.toString());

        assertThat(ran.code()).isZero();
        assertThat(ran.out().lines().toList().get(1)).startsWith("jet-1 ").contains(" 5000 ", "kB");
        assertThat(ran.out()).contains("File: ", "Room on the disk, with the");
        assertThat(ran.out().lines()).allSatisfy(line -> assertThat(line).hasSizeLessThan(81));
    }

    @Test
    void programs_are_told_in_bytes() throws IOException {
        JsonNode told =
                new ObjectMapper()
                        .readTree(Ran.leat("store", "--json", "--store", file.toString()).out());

        JsonNode jet = told.get("machines").get(0);
        assertThat(told.get("file_bytes").asLong()).isEqualTo(Files.size(file));
        assertThat(jet.get("readings").asLong()).isEqualTo(5_000);
        assertThat(jet.get("packed_readings").asLong()).isEqualTo(1_200);
        assertThat(jet.get("packed_s").asLong()).isEqualTo(1_200);
        assertThat(jet.get("packed_bytes").asLong()).isBetween(100L, 2_000L);
    }

    @Test
    void copy_that_is_made_while_leat_runs_holds_the_same() throws IOException {
        Path copy = folder.resolve("copy.db");

        try (Store running = Store.open(file)) {
            Ran ran = Ran.leat("store", "backup", "--store", file.toString(), copy.toString());

            assertThat(ran.code()).as(ran.err()).isZero();
            assertThat(ran.out()).startsWith(copy + ": ").contains("sound");
        }
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(copy)))
                .isEqualTo("rw-------");
        assertThat(inputs(copy)).isEqualTo(inputs(file)).hasSize(10_000);
        Store.open(copy).close();
    }

    @Test
    void file_that_is_there_is_left_alone() throws IOException {
        Path copy = Files.writeString(folder.resolve("copy.db"), "mine");

        Ran ran = Ran.leat("store", "backup", "--store", file.toString(), copy.toString());

        assertThat(ran.code()).isEqualTo(ExitCode.FAILED);
        assertThat(ran.err()).contains("is there already");
        assertThat(copy).hasContent("mine");
    }

    @Test
    void copy_of_a_damaged_store_is_refused_and_nothing_is_left_of_it() throws IOException {
        byte[] bytes = Files.readAllBytes(file);
        Arrays.fill(bytes, 40_960, bytes.length - 40_960, (byte) 0x5a);
        Files.write(file, bytes);
        Path copy = folder.resolve("copy.db");

        Ran ran = Ran.leat("store", "backup", "--store", file.toString(), copy.toString());

        assertThat(ran.code()).isNotZero();
        assertThat(ran.err()).contains("damaged");
        assertThat(copy).doesNotExist();
        assertThat(folder.resolve("copy.db.part")).doesNotExist();
    }

    private static List<Input> inputs(Path file) {
        List<Input> inputs = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(file)) {
            reader.inputs("jet-1", 0, Long.MAX_VALUE, (seq, input) -> inputs.add(input));
        }
        return inputs;
    }
}
