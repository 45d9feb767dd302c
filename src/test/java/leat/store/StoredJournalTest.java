package leat.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import leat.json.RecordJson;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.signal.Order.Journal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Typed entries with what was found, in the file of the store. */
class StoredJournalTest {

    @TempDir Path folder;

    @Test
    void what_was_found_comes_back_with_what_was_done() {
        Journal entry = new Journal(Entry.PUMP_REPLACED, "gap 2 mm", "worn-booster");
        Batch batch = new Batch();
        batch.fed("jet-1", 1, new Instruction(7, "Kim", entry));

        try (Store store = Store.open(folder.resolve("leat.db"));
                StoreReader reader = StoreReader.open(folder.resolve("leat.db"))) {
            store.commit(batch);

            assertThat(reader.journal(Optional.of("jet-1"), 9))
                    .containsExactly(new JournalLine("jet-1", 1, 7, "Kim", entry));
        }
    }

    @Test
    void a_row_from_before_anything_was_found_is_read_as_it_was_meant() {
        String row = "{\"kind\":\"journal\",\"entry\":\"serviced\",\"text\":\"new seal\"}";

        assertThat(RecordJson.read(Order.class, row))
                .isEqualTo(new Journal(Entry.SERVICED, "new seal", ""));
    }

    @Test
    void the_row_of_an_entry_without_a_finding_is_as_it_always_was() {
        assertThat(RecordJson.write(Order.class, new Journal(Entry.SERVICED, "new seal")))
                .isEqualTo("{\"kind\":\"journal\",\"entry\":\"serviced\",\"text\":\"new seal\"}");
    }
}
