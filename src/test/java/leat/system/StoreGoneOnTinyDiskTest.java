package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import leat.Gear;
import leat.rule.Grade;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Tick;
import leat.store.Batch;
import leat.store.BegunAnew;
import leat.store.InstructionBox;
import leat.store.Message;
import leat.store.Store;
import leat.store.StoreException;
import leat.store.StoreReader;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A database is deleted on a disk that has little room: what is deleted still takes its space. */
@Tag(Gear.THOROUGH)
class StoreGoneOnTinyDiskTest {

    private static final int MESSAGES = 2_500;
    private static final int BYTES_EACH = 1_500;
    private static final int ATTEMPTS = 41;

    @TempDir Path folder;

    private static Message message(int number) {
        return new Message(
                "message-" + number,
                "hall",
                "jet-1",
                "",
                Grade.WARNING,
                1,
                "topic",
                Message.Purpose.CALL,
                "raised",
                "subject",
                "x".repeat(BYTES_EACH),
                "{}",
                Optional.empty());
    }

    private static Batch tick(long seq) {
        Batch batch = new Batch();
        batch.fed("jet-1", seq, new Tick(seq * 1_000_000));
        return batch;
    }

    /** From too little for it to more than enough. */
    @ParameterizedTest
    @ValueSource(ints = {1_000, 4_500, 5_500, 7_000, 9_000})
    void whatever_room_there_is_nothing_is_lost_and_it_goes_on_once_there_is_enough(int kilobytes)
            throws IOException {
        Path data = folder.resolve("data");
        Path file = data.resolve("leat.db");
        try (TinyDisk disk = TinyDisk.mount(data);
                Store store = Store.open(file)) {
            store.startRun("test", "hash", "text", 1);
            Batch batch = tick(1);
            for (int i = 0; i < MESSAGES; i++) {
                batch.owes(message(i));
            }
            store.commit(batch);
            store.checkpoint();
            Path room = Files.write(data.resolve("room"), new byte[kilobytes << 10]);
            disk.fill();
            StoreException gone = lost(file, store);
            Files.delete(room);

            if (!isBegun(store, gone)) {
                assertThatThrownBy(() -> store.beginAnew(gone, 1))
                        .isInstanceOf(StoreException.Full.class);
                disk.makeRoom();
                int attempts = 0;
                while (!isBegun(store, gone)) {
                    assertThat(++attempts).isLessThan(ATTEMPTS);
                }
            }
            store.commit(tick(2));

            try (StoreReader reader = StoreReader.open(file)) {
                assertThat(reader.due("hall", 0, 2 * MESSAGES)).hasSize(MESSAGES);
                assertThat(reader.lastSeq("jet-1")).isEqualTo(2);
            }
        }
    }

    /** A deleted file keeps its room for as long as leat has it open. */
    @Test
    void where_there_is_never_room_for_the_history_it_goes_on_without_and_gives_the_room_back()
            throws IOException {
        Path data = folder.resolve("data");
        Path file = data.resolve("leat.db");
        try (TinyDisk disk = TinyDisk.mount(data);
                Store store = Store.open(file)) {
            store.startRun("test", "hash", "text", 1);
            Batch batch = tick(1);
            batch.owes(message(1));
            store.commit(batch);
            try (InstructionBox box = InstructionBox.open(file)) {
                Order note = new Order.Journal(Order.Entry.NOTE, "x".repeat(BYTES_EACH));
                for (int i = 0; i < MESSAGES; i++) {
                    box.leave("jet-1", new Instruction(1, "Ines", note));
                }
            }
            store.checkpoint();
            Path room = Files.write(data.resolve("room"), new byte[1_500 << 10]);
            disk.fill();
            StoreException gone = lost(file, store);
            Files.delete(room);

            Optional<BegunAnew> begun = Optional.empty();
            int attempts = 0;
            while (begun.isEmpty() && attempts < ATTEMPTS) {
                attempts++;
                try {
                    begun = Optional.of(store.beginAnew(gone, 1));
                } catch (StoreException.Full e) {
                    assertThat(e).hasMessageContaining("the disk is full");
                }
            }

            assertThat(begun)
                    .map(BegunAnew::words)
                    .contains("there is no room to carry over what it held");
            assertThat(attempts).isGreaterThan(10);
            assertThat(begun).map(BegunAnew::isCarried).contains(false);
            store.commit(tick(2));
            try (StoreReader reader = StoreReader.open(file)) {
                assertThat(reader.due("hall", 0, 10)).hasSize(1);
                assertThat(reader.waiting()).isEmpty();
            }
            assertThat(Files.getFileStore(data).getUsableSpace()).isGreaterThan(4_000_000);
        }
    }

    /** Everything of the store is deleted; what its next commit says of it. */
    private static StoreException lost(Path file, Store store) throws IOException {
        for (String suffix : new String[] {"", "-wal", "-shm", ".lock"}) {
            Files.delete(file.resolveSibling("leat.db" + suffix));
        }
        return catchThrowableOfType(StoreException.Gone.class, () -> store.commit(tick(2)));
    }

    private static boolean isBegun(Store store, StoreException gone) {
        try {
            assertThat(store.beginAnew(gone, 1).isCarried()).isTrue();
            return true;
        } catch (StoreException.Full e) {
            return false;
        }
    }
}
