package leat.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.rule.Grade;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.watch.Outcome;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StoreTroubleTest {

    @TempDir private Path folder;
    private Path file;
    private Store store;

    @BeforeEach
    void open() {
        file = folder.resolve("leat.db");
        store = Store.open(file);
        store.startRun("0.1.0", "hash", "", 0);
    }

    @AfterEach
    void close() {
        store.close();
    }

    @Test
    void a_full_disk_writes_nothing_and_the_same_batch_goes_in_once_there_is_room() {
        Batch small = batch(1, 10);
        Batch big = batch(11, 20_000);
        store.commit(small);
        store.limitPages(store.pages() + 20);

        assertThatThrownBy(() -> store.commit(big))
                .isInstanceOf(StoreException.Full.class)
                .hasMessageContaining(file.toString())
                .hasMessageContaining("disk is full");
        assertThatThrownBy(() -> store.commit(big)).isInstanceOf(StoreException.Full.class);
        assertOnlyUpTo(10);
        store.limitPages(1_000_000);
        store.commit(big);
        store.commit(batch(20_001, 20_010));

        assertOnlyUpTo(20_010);
    }

    @Test
    void a_full_disk_leaves_a_waiting_instruction_waiting() {
        long number;
        try (InstructionBox box = InstructionBox.open(file)) {
            number =
                    box.leave(
                            "jet-1",
                            new Instruction(1, "Kim", new Order.Journal(Order.Entry.NOTE, "leak")));
        }
        Batch big = batch(1, 20_000);
        big.taken(number, "jet-1", 1, 2);
        store.limitPages(store.pages() + 20);

        assertThatThrownBy(() -> store.commit(big)).isInstanceOf(StoreException.Full.class);

        try (StoreReader reader = StoreReader.open(file)) {
            assertThat(reader.waiting()).hasSize(1);
            store.limitPages(1_000_000);
            store.commit(big);
            assertThat(reader.waiting()).isEmpty();
        }
    }

    @Test
    void another_program_that_holds_the_file_delays_a_commit_and_loses_nothing() {
        Batch batch = batch(1, 10);

        try (Db other = Db.writing(file)) {
            other.run("BEGIN IMMEDIATE");
            assertThatThrownBy(() -> store.commit(batch))
                    .isInstanceOf(StoreException.Busy.class)
                    .hasMessageContaining("another program");
            other.run("ROLLBACK");
        }
        store.commit(batch);

        assertOnlyUpTo(10);
    }

    @Test
    void an_input_that_is_there_already_is_a_bug_and_takes_the_whole_batch_back() {
        store.commit(batch(1, 10));
        Batch wrong = batch(11, 20);
        wrong.fed("jet-1", 5, Reading.good(Channel.INLET, 5, 40));

        assertThatThrownBy(() -> store.commit(wrong)).isInstanceOf(IllegalStateException.class);

        assertOnlyUpTo(10);
        store.commit(batch(11, 20));
        assertOnlyUpTo(20);
    }

    @Test
    void an_outcome_under_an_unknown_configuration_is_a_bug() {
        Batch wrong = new Batch();
        wrong.said("jet-1", 1, new RandomStory(1).startup(), "never started");

        assertThatThrownBy(() -> store.commit(wrong)).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void a_reader_that_does_not_let_go_holds_up_the_checkpoint_and_nothing_else() {
        store.commit(batch(1, 1_000));

        try (Db lazy = Db.reading(file)) {
            lazy.run("BEGIN");
            lazy.number("SELECT count(*) FROM input");
            store.commit(batch(1_001, 2_000));
            assertThat(store.checkpoint()).isFalse();
            assertThat(store.walBytes()).isPositive();
            lazy.run("ROLLBACK");
        }

        assertThat(store.checkpoint()).isTrue();
        assertThat(store.walBytes()).isZero();
        assertOnlyUpTo(2_000);
    }

    /** One reading, startup and message for each seq: whatever is half there shows. */
    private static Batch batch(int fromSeq, int toSeq) {
        RandomStory story = new RandomStory(fromSeq);
        Batch batch = new Batch();
        for (int seq = fromSeq; seq <= toSeq; seq++) {
            batch.fed("jet-1", seq, Reading.good(Channel.INLET, seq, 40.25));
            if (seq % 10 == 0) {
                batch.said("jet-1", seq, story.startup(), "hash");
                batch.owes(
                        new Message(
                                "m" + seq,
                                "log",
                                "jet-1",
                                "",
                                Grade.ADVISORY,
                                seq,
                                "",
                                Message.Purpose.NEWS,
                                "",
                                "",
                                "",
                                "",
                                Optional.empty()));
            }
        }
        batch.snapshot(new Snapshot("jet-1", toSeq, toSeq, 1, new byte[100]));
        return batch;
    }

    private void assertOnlyUpTo(int seq) {
        List<Outcome> outcomes = new ArrayList<>();
        long[] inputs = {0};
        try (StoreReader reader = StoreReader.open(file)) {
            reader.inputs("jet-1", 0, Long.MAX_VALUE, (n, input) -> inputs[0]++);
            reader.outcomes("jet-1", 0, Long.MAX_VALUE, said -> outcomes.add(said.outcome()));

            assertThat(reader.lastSeq("jet-1")).isEqualTo(seq);
            assertThat(inputs[0]).isEqualTo(seq);
            assertThat(outcomes).hasSize(seq / 10);
            assertThat(reader.due("log", 0, 100_000)).hasSize(seq / 10);
            assertThat(reader.snapshots("jet-1").get(0).seq()).isEqualTo(seq);
            assertThat(reader.summary().samples()).isEqualTo(seq);
        }
    }
}
