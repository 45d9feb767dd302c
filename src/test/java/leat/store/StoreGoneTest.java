package leat.store;

import static java.nio.file.StandardOpenOption.WRITE;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import leat.rule.Grade;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.watch.Outcome;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Somebody deletes or replaces files of a store that a leat has open. */
class StoreGoneTest {

    private static final String RUN = "hash";
    private static final int PAGE = 1_024;

    @TempDir private Path folder;
    private Path file;
    private Path elsewhere;
    private Store store;
    private StoreReader reader;
    private long seq;

    @FunctionalInterface
    private interface Doing {
        void to(StoreGoneTest test) throws IOException;
    }

    /** What somebody does. */
    private enum Deed {
        EVERYTHING_DELETED(
                "leat.db was deleted",
                test -> {
                    for (String name : List.of("", "-wal", "-shm", ".lock")) {
                        Files.delete(test.beside(name));
                    }
                }),
        DATABASE_DELETED("leat.db was deleted", test -> Files.delete(test.file)),
        LOG_DELETED("leat.db-wal was deleted", test -> Files.delete(test.beside("-wal"))),
        INDEX_DELETED("leat.db-shm was deleted", test -> Files.delete(test.beside("-shm"))),
        FOLDER_DELETED("leat.db was deleted", test -> test.deleteFolder()),
        FOLDER_MOVED(
                "leat.db was deleted or moved",
                test -> Files.move(test.file.getParent(), test.elsewhere.resolve("moved"))),
        REPLACED_BY_A_STORE(
                "leat.db was replaced", test -> test.put(test.elsewhere.resolve("other.db"))),
        REPLACED_BY_A_TEXT(
                "leat.db was replaced",
                test -> test.put(Files.writeString(test.elsewhere.resolve("text"), "no database"))),
        CUT(
                "leat.db was cut from ",
                test -> {
                    try (var bytes = Files.newByteChannel(test.file, WRITE)) {
                        bytes.truncate(0);
                    }
                });

        private final String said;
        private final Doing doing;

        Deed(String said, Doing doing) {
            this.said = said;
            this.doing = doing;
        }

        boolean leavesTheOldReadable() {
            return this != CUT;
        }

        boolean leavesAStranger() {
            return this == REPLACED_BY_A_STORE || this == REPLACED_BY_A_TEXT;
        }
    }

    @BeforeEach
    void open_and_fill() throws IOException {
        file = Files.createDirectory(folder.resolve("state")).resolve("leat.db");
        elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
        OneAlarm.store(elsewhere.resolve("other.db"));
        store = Store.open(file);
        store.startRun("test", RUN, "text", 1);
        Batch batch = second();
        batch.said(
                "jet-1",
                seq,
                new Outcome.AlarmChanged(InstructionBoxTest.raised(OneAlarm.ID)),
                RUN);
        batch.owes(message("told"));
        batch.owes(message("waits"));
        store.commit(batch);
        store.checkpoint();
        reader = StoreReader.open(file);
        Batch mark = second();
        mark.delivered(due(reader).get(0).number(), 5);
        store.commit(mark);
        try (InstructionBox box = InstructionBox.open(file)) {
            box.leave("jet-1", new Instruction(1, "kim", new Order.Acknowledge(OneAlarm.ID)));
        }
        try (NonceBook book = NonceBook.open(file)) {
            assertThat(book.take("kim", "once", 100)).isTrue();
        }
    }

    @AfterEach
    void close() {
        reader.close();
        store.close();
    }

    private Path beside(String suffix) {
        return file.resolveSibling("leat.db" + suffix);
    }

    private void put(Path other) throws IOException {
        Files.copy(other, elsewhere.resolve("copy"), StandardCopyOption.REPLACE_EXISTING);
        Files.move(other, file, StandardCopyOption.REPLACE_EXISTING);
    }

    private void deleteFolder() throws IOException {
        try (Stream<Path> all = Files.walk(file.getParent())) {
            for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(each);
            }
        }
    }

    /** The next second of readings. */
    private Batch second() {
        Batch batch = new Batch();
        batch.fed("jet-1", ++seq, Reading.good(Channel.INLET, seq * 1_000_000, 40));
        batch.fed("jet-1", ++seq, new Tick(seq * 1_000_000));
        return batch;
    }

    private static Message message(String id) {
        return new Message(
                id,
                "hall",
                "jet-1",
                OneAlarm.ID,
                Grade.CRITICAL,
                1,
                "jet-1/alarm/ratio",
                Message.Purpose.CALL,
                "raised",
                "subject",
                "text",
                "{}",
                Optional.empty());
    }

    private static List<Owed> due(StoreReader reader) {
        return reader.due("hall", 0, 10);
    }

    private void secondsPass(int count) {
        for (int i = 0; i < count; i++) {
            store.commit(second());
        }
    }

    @ParameterizedTest
    @EnumSource(Deed.class)
    void it_is_noticed_before_the_next_commit_and_a_new_file_goes_on(Deed deed) throws IOException {
        reader.close();
        deed.doing.to(this);
        Batch batch = second();
        batch.owes(message("new"));
        StoreException gone =
                catchThrowableOfType(StoreException.Gone.class, () -> store.commit(batch));
        assertThat(gone).hasMessageContaining(deed.said);

        String became = store.beginAnew(gone, 9).words();
        store.commit(batch);
        Batch last = second();
        last.owes(message("last"));
        store.commit(last);

        assertThat(store.generation()).isEqualTo(1);
        assertThat(store.walBytes()).isPositive();
        assertThat(became)
                .startsWith(
                        deed.leavesTheOldReadable()
                                ? "everything but the readings was carried over"
                                : "what it held cannot be read");
        reader = StoreReader.open(file);
        assertThat(due(reader)).extracting(due -> due.message().id()).endsWith("new", "last");
        assertThat(due(reader)).extracting(Owed::number).endsWith(3L, 4L);
        assertThat(reader.lastSeq("jet-1")).isEqualTo(seq);
        assertThat(reader.runs(10)).hasSize(1);
        assertThat(reader.summary().samples()).isEqualTo(2);
        if (deed.leavesTheOldReadable()) {
            assertEverythingElseIsThere();
        }
        reader.close();
        store.endRun(10);
        store.close();
        assertThat(beside("-wal")).doesNotExist();
        assertIsWhole(file);
    }

    /**
     * As on a network mount that numbers its files anew each time: no disk is filled with copies.
     */
    @Test
    void file_that_is_lost_again_and_again_is_begun_ever_more_seldom() throws IOException {
        List<Integer> begunAt = new ArrayList<>();
        for (int commit = 0; commit < 80; commit++) {
            Files.deleteIfExists(file);
            try {
                store.beginAnew(new StoreException.Gone(file, "deleted", null), 0);
                begunAt.add(commit);
            } catch (StoreException.Gone e) {
                assertThat(e).hasMessageContaining("deleted");
            }
        }

        assertThat(begunAt).containsExactly(0, 10, 29, 66);
    }

    @Test
    void whoever_closes_the_old_file_last_leaves_those_of_the_new_one_alone() throws IOException {
        try (Db command = Db.writingBeside(file)) {
            command.number("SELECT count(*) FROM run");
            Deed.EVERYTHING_DELETED.doing.to(this);
            beginAnew(second());
        }
        reader.close();

        store.commit(second());

        assertThat(store.generation()).isEqualTo(1);
        assertThat(beside("-wal")).exists();
    }

    private void assertEverythingElseIsThere() {
        assertThat(due(reader))
                .extracting(due -> due.message().id())
                .containsExactly("waits", "new", "last");
        assertThat(reader.standingAlarms())
                .extracting(alarm -> alarm.change().alarmId())
                .containsExactly(OneAlarm.ID);
        assertThat(reader.waiting()).hasSize(1);
        try (NonceBook book = NonceBook.open(file)) {
            assertThat(book.take("kim", "once", 100)).isFalse();
        }
    }

    private static void assertIsWhole(Path database) {
        try (Db db = Db.reading(database)) {
            assertThat(db.first("PRAGMA integrity_check", ResultRow::text)).contains("ok");
            assertThat(db.list("PRAGMA foreign_key_check", ResultRow::text)).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource(value = Deed.class, mode = EnumSource.Mode.MATCH_ALL, names = "REPLACED.*")
    void what_lies_in_its_place_is_moved_aside_as_it_is(Deed deed) throws IOException {
        deed.doing.to(this);
        Batch batch = second();

        String became = beginAnew(batch);

        assertThat(became).endsWith("; what lies there is now leat.db.found-1");
        assertThat(beside(".found-1")).hasSameBinaryContentAs(elsewhere.resolve("copy"));
        assertThat(beside(".found-1-wal")).doesNotExist();
    }

    private String beginAnew(Batch batch) {
        StoreException gone =
                catchThrowableOfType(StoreException.Gone.class, () -> store.commit(batch));
        String became = store.beginAnew(gone, 9).words();
        store.commit(batch);
        return became;
    }

    /** With its readings: what only the log held was moved into it. */
    @ParameterizedTest
    @EnumSource(
            value = Deed.class,
            names = {"LOG_DELETED", "INDEX_DELETED"})
    void database_whose_log_was_deleted_is_moved_aside_whole(Deed deed) throws IOException {
        deed.doing.to(this);

        beginAnew(second());

        Files.deleteIfExists(beside(".found-1-shm"));
        try (StoreReader found = StoreReader.open(beside(".found-1"))) {
            assertThat(found.summary().samples()).isEqualTo(2);
            assertThat(found.lastSeq("jet-1")).isEqualTo(4);
        }
    }

    @Test
    void lock_that_was_deleted_is_taken_anew_and_nothing_else_happens() throws IOException {
        Files.delete(beside(".lock"));

        store.commit(second());

        assertThat(store.generation()).isZero();
        assertThat(beside(".lock")).exists();
        assertThat(reader.summary().samples()).isEqualTo(3);
    }

    @Test
    void while_another_leat_is_quicker_nothing_is_touched_and_then_the_first_goes_on()
            throws IOException {
        Deed.EVERYTHING_DELETED.doing.to(this);
        Batch batch = second();
        StoreException gone;
        try (Store other = Store.open(file)) {
            other.startRun("other", RUN, "text", 2);
            gone = catchThrowableOfType(StoreException.Gone.class, () -> store.commit(batch));

            assertThatThrownBy(() -> store.beginAnew(gone, 9))
                    .isInstanceOf(StoreException.InUse.class);

            assertThat(Files.list(file.getParent()).map(each -> each.getFileName().toString()))
                    .contains("leat.db", "leat.db-wal", "leat.db-shm", "leat.db.lock")
                    .noneMatch(name -> name.startsWith("leat.db.found"));
        }
        store.beginAnew(gone, 9);
        store.commit(batch);

        reader.close();
        reader = StoreReader.open(file);
        assertEverythingOldIsThere();
        try (StoreReader others = StoreReader.open(beside(".found-1"))) {
            assertThat(others.runs(1).get(0).version()).isEqualTo("other");
        }
    }

    private void assertEverythingOldIsThere() {
        assertThat(due(reader)).extracting(due -> due.message().id()).containsExactly("waits");
        assertThat(reader.standingAlarms()).hasSize(1);
    }

    @Test
    void file_that_another_leat_has_written_to_is_left_to_it_and_moved_aside() throws IOException {
        Files.delete(beside(".lock"));
        try (Store other = Store.open(file)) {
            other.startRun("other", RUN, "text", 2);
            assertThatThrownBy(() -> store.commit(second()))
                    .isInstanceOf(StoreException.InUse.class);
        }

        String became = beginAnew(second());

        assertThat(became).contains("leat.db.found-1");
        try (StoreReader others = StoreReader.open(beside(".found-1"))) {
            assertThat(others.runs(1).get(0).version()).isEqualTo("other");
        }
    }

    @Test
    void instruction_left_in_the_new_file_waits_though_its_number_was_taken_up_in_the_old_one()
            throws IOException {
        Batch batch = second();
        batch.taken(1, "jet-1", seq, 7);
        Deed.CUT.doing.to(this);
        StoreException gone =
                catchThrowableOfType(StoreException.Gone.class, () -> store.commit(batch));
        assertThat(store.beginAnew(gone, 9).isCarried()).isFalse();
        batch.forgetInstructions();
        store.commit(second());
        try (InstructionBox box = InstructionBox.open(file)) {
            box.leave(
                    "jet-1",
                    new Instruction(2, "kim", new Order.Journal(Order.Entry.SERVICED, "seal")));
        }

        store.commit(batch);

        reader.close();
        reader = StoreReader.open(file);
        assertThat(reader.waiting()).extracting(WaitingInstruction::number).containsExactly(1L);
    }

    @Test
    void what_is_owed_and_can_still_be_read_is_carried_over_from_a_damaged_file()
            throws IOException {
        store.checkpoint();
        long page;
        try (Db db = Db.reading(file)) {
            page = db.number("SELECT rootpage FROM sqlite_schema WHERE name = 'run'");
        }
        try (InstructionBox box = InstructionBox.open(file)) { // the store reads its pages anew
            box.leave("jet-1", new Instruction(1, "kim", new Order.Acknowledge(OneAlarm.ID)));
        }
        try (var bytes = Files.newByteChannel(file, WRITE)) {
            bytes.position((page - 1) * PAGE);
            bytes.write(java.nio.ByteBuffer.allocate(PAGE));
        }

        BegunAnew begun = store.beginAnew(new StoreException.Damaged(file, null), 9);

        reader.close();
        reader = StoreReader.open(file);
        assertThat(begun.isCarried()).isFalse();
        assertThat(due(reader)).extracting(due -> due.message().id()).containsExactly("waits");
        try (NonceBook book = NonceBook.open(file)) {
            assertThat(book.take("kim", "once", 100)).isFalse();
        }
    }

    @Test
    void file_that_is_damaged_under_the_hand_is_moved_aside_and_a_new_one_begun()
            throws IOException {
        secondsPass(3);
        store.checkpoint();
        try (var bytes = Files.newByteChannel(file, WRITE)) {
            bytes.position(0);
            bytes.write(java.nio.ByteBuffer.allocate((int) Files.size(file)));
        }
        reader.close();

        store.beginAnew(new StoreException.Damaged(file, null), 9);
        store.commit(second());

        reader = StoreReader.open(file);
        assertThat(reader.runs(10)).hasSize(1);
        assertThat(beside(".found-1")).exists();
    }
}
