package leat.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.store.Batch;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import leat.store.Message;
import leat.store.Snapshot;
import leat.store.Store;
import leat.store.StoreException;
import leat.store.StoreReader;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Somebody deletes the database under leat's hand; real store, engine and couriers. */
class StoreGoneWhileWatchingTest {

    @TempDir Path folder;

    private JetRun jet;

    @BeforeEach
    void open() throws IOException {
        jet = new JetRun(folder);
    }

    @AfterEach
    void close() {
        jet.close();
    }

    private void delete(String... suffixes) throws IOException {
        for (String suffix : suffixes) {
            Files.delete(folder.resolve("data/leat.db" + suffix));
        }
    }

    @Test
    void everybody_is_told_that_the_database_is_gone_and_of_every_alarm_once() throws Exception {
        jet.pass(10, 40, 0, 0);
        jet.pass(6, 40, 41, 1);
        delete("", "-wal", "-shm", ".lock");

        jet.pass(20, 40, 41, 1);
        List<Snapshot> live = jet.run.snapshots();
        List<Snapshot> resumed = jet.resumed();

        assertThat(jet.events("siren")).containsExactly("store-anew", "raised");
        assertThat(jet.told("siren").get(0).text().replaceAll("\\s+", " "))
                .startsWith("The database of leat at Boatyard was deleted or replaced while leat")
                .contains("leat.db was deleted or moved away while leat runs; everything but the");
        assertThat(jet.told("siren"))
                .extracting(Message::text)
                .noneMatch(text -> text.contains("Not stored yet"));
        assertThat(jet.due("siren")).isEmpty();
        assertThat(jet.alarms()).isEqualTo(1);
        assertThat(resumed).isEqualTo(live);
    }

    @Test
    void alarm_that_stands_when_nothing_can_be_carried_over_can_still_be_acknowledged()
            throws Exception {
        jet.pass(10, 40, 0, 0);
        jet.pass(30, 40, 41, 1);
        jet.run.killAndStartAgain(); // who has just opened it remembers little of it
        Files.newOutputStream(jet.run.database()).close();

        jet.pass(2, 40, 41, 1);
        acknowledge(1);
        jet.pass(2, 40, 41, 1);

        assertThat(jet.events("siren")).containsExactly("raised", "store-anew", "acknowledged");
        assertThat(jet.alarms()).isEqualTo(1);
    }

    @Test
    void killed_before_the_first_commit_into_the_new_file_it_goes_on_and_alarms_are_at_hand()
            throws Exception {
        jet.pass(10, 40, 0, 0);
        jet.pass(30, 40, 41, 1);
        long before = lastSeq();
        delete("", "-wal", "-shm", ".lock");
        Store store = jet.run.store();
        Batch any = new Batch();
        any.unfolds();
        StoreException gone =
                catchThrowableOfType(StoreException.Gone.class, () -> store.commit(any));
        store.beginAnew(gone, jet.run.nowMicros());

        jet.run.killAndStartAgain();
        jet.pass(30, 40, 41, 1);
        acknowledge(2);
        jet.pass(2, 40, 41, 1);

        assertThat(lastSeq()).isGreaterThan(before);
        assertThat(jet.run.trouble()).isEmpty();
        assertThat(jet.events("siren"))
                .containsExactly("raised", "acknowledged", "returned", "raised", "acknowledged");
        assertThat(jet.resumed()).isEqualTo(jet.run.snapshots());
    }

    private long lastSeq() {
        try (StoreReader reader = StoreReader.open(jet.run.database())) {
            return reader.lastSeq("jet-1");
        }
    }

    private void acknowledge(int number) {
        try (InstructionBox box = InstructionBox.open(jet.run.database())) {
            String id = box.alarm(Integer.toString(number)).orElseThrow().id();
            box.leave(
                    "jet-1",
                    new Instruction(jet.run.nowMicros(), "kim", new Order.Acknowledge(id)));
        }
    }

    @Test
    void what_people_ask_for_afterwards_is_taken_up_and_what_they_asked_before_too()
            throws Exception {
        jet.pass(10, 40, 0, 0);
        long before = leaveNote("before");
        delete("");
        jet.pass(2, 40, 0, 0);
        long after = leaveNote("after");

        jet.pass(2, 40, 0, 0);

        try (InstructionBox box = InstructionBox.open(jet.run.database())) {
            assertThat(box.fate(before).state()).isEqualTo(InstructionFate.State.TAKEN);
            assertThat(box.fate(after).state()).isEqualTo(InstructionFate.State.TAKEN);
        }
        assertThat(jet.run.trouble()).isEmpty();
    }

    private long leaveNote(String text) {
        try (InstructionBox box = InstructionBox.open(jet.run.database())) {
            return box.leave(
                    "jet-1",
                    new Instruction(
                            jet.run.nowMicros(),
                            "kim",
                            new Order.Journal(Order.Entry.SERVICED, text)));
        }
    }

    @Test
    void while_a_second_leat_holds_the_folder_the_first_goes_on_telling_from_memory()
            throws Exception {
        jet.pass(10, 40, 0, 0);
        delete("", "-wal", "-shm", ".lock");

        try (Store second = Store.open(jet.run.database())) {
            second.startRun("second", "hash", "text", 1);
            jet.pass(30, 40, 41, 1);
        }
        List<Message> meanwhile = jet.told("siren");
        jet.pass(12, 40, 41, 1);

        assertThat(meanwhile).extracting(Message::event).containsExactly("store-in-use", "raised");
        assertThat(meanwhile.get(1).text()).contains("Not stored yet");
        assertThat(jet.events("siren"))
                .containsExactly("store-in-use", "raised", "store-anew", "store-works");
        assertThat(jet.due("siren")).isEmpty();
        assertThat(jet.alarms()).isEqualTo(1);
        assertThat(folder.resolve("data/leat.db.found-1")).exists();
    }
}
