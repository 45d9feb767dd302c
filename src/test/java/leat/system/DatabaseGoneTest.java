package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import leat.Gear;
import leat.store.OneAlarm;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The whole daemon, and somebody who deletes or replaces its database, or a disk that fails, with
 * an alarm in the middle: everybody is told of both within seconds and of nothing twice, and what
 * was told is stored.
 */
@Tag(Gear.THOROUGH)
@Timeout(180)
class DatabaseGoneTest {

    private static final Duration SOON = Duration.ofSeconds(20);

    @TempDir Path folder;

    private Path database;
    private Ledger ledger;
    private Cabinet cabinet;
    private HookDesk desk;

    @FunctionalInterface
    private interface Doing {
        void to(DatabaseGoneTest test) throws IOException;
    }

    /** What somebody does. */
    private enum Deed {
        FILES_DELETED(DatabaseGoneTest::deleteFiles),
        FOLDER_DELETED(test -> sweep(test.database.getParent())),
        DATABASE_DELETED(test -> Files.delete(test.database)),
        LOG_DELETED(test -> Files.delete(test.beside("-wal"))),
        CUT(test -> Files.newOutputStream(test.database).close()),
        REPLACED(
                test -> {
                    Path other = test.folder.resolve("other.db");
                    OneAlarm.store(other);
                    Files.move(other, test.database, StandardCopyOption.REPLACE_EXISTING);
                });

        private final Doing doing;

        Deed(Doing doing) {
            this.doing = doing;
        }
    }

    @BeforeEach
    void start_the_field_device_and_the_receiver() throws IOException {
        database = folder.resolve("data/leat.db");
        ledger = new Ledger(database);
        cabinet = new Cabinet();
        desk = new HookDesk(id -> true);
        Path secret = Files.writeString(folder.resolve("secret"), "an invented secret\n");
        String route =
                "office: { by: { webhook: { url: %s, secret: { file: %s } } }, about: { from: CRITICAL } }"
                        .formatted(desk.url(), secret);
        Files.writeString(folder.resolve("site.yaml"), QuickSite.yaml(cabinet.port(), "", route));
    }

    @AfterEach
    void close() {
        desk.close();
        cabinet.close();
    }

    private Path beside(String suffix) {
        return database.resolveSibling("leat.db" + suffix);
    }

    private void deleteFiles() throws IOException {
        for (String suffix : List.of("", "-wal", "-shm", ".lock")) {
            Files.delete(beside(suffix));
        }
    }

    private static void sweep(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(each);
            }
        }
    }

    /** The booster fails: CRITICAL after two seconds. */
    private void fail() {
        cabinet.show(40, 41);
    }

    private List<String> heard() {
        return desk.heard();
    }

    private boolean isHeard(String part) {
        return heard().stream().anyMatch(id -> id.contains(part));
    }

    private void awaitHeard(String part) {
        await(part).atMost(SOON).until(() -> isHeard(part));
    }

    private static void awaitSaid(LeatProcess leat, String words) {
        await().atMost(SOON).until(() -> leat.log().contains(words));
    }

    private void awaitNothingIsDue() {
        await().atMost(SOON).ignoreExceptions().until(() -> ledger.due("office") == 0);
    }

    private void assertSecondIsRefused() throws Exception {
        LeatProcess second = LeatProcess.done(folder, "run", "site.yaml");
        assertThat(second.exitCode()).as(second.log()).isEqualTo(1);
        assertThat(second.log()).contains("another leat is running on this store");
    }

    private static void assertEndsInOrder(LeatProcess leat) throws InterruptedException {
        leat.terminate();
        assertThat(leat.log()).contains("ended in order").doesNotContain("Exception", "\tat ");
    }

    /** What was heard was heard once, and is in the store, which is whole. */
    private void assertEverythingHeardIsStored() {
        assertThat(heard()).doesNotHaveDuplicates();
        assertThat(ledger.owed("office").stream().filter(Ledger.Owed::delivered))
                .extracting(Ledger.Owed::id)
                .containsAll(heard());
        assertThat(ledger.integrity()).containsExactly("ok");
    }

    @ParameterizedTest
    @EnumSource(Deed.class)
    void somebody_does_that_and_the_booster_fails(Deed deed) throws Exception {
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            leat.letRun(Duration.ofSeconds(3));

            deed.doing.to(this);
            fail();
            long begun = System.nanoTime();

            awaitHeard("store-anew/");
            long told = System.nanoTime();
            awaitHeard("jet-1.ratio.");
            System.out.printf(
                    "database gone (%s): told of it after %.1f s, of the booster after %.1f s%n",
                    deed, (told - begun) / 1e9, (System.nanoTime() - begun) / 1e9);
            assertSecondIsRefused();
            cabinet.show(40, 102);
            await().atMost(SOON).ignoreExceptions().until(() -> ledger.events("jet-1").size() >= 2);
            awaitNothingIsDue();
            assertEndsInOrder(leat);
            assertThat(beside("-wal")).as("the last to close").doesNotExist();
        }
        assertEverythingHeardIsStored();
    }

    @Test
    void a_second_leat_that_is_quicker_keeps_the_folder_and_the_first_tells_from_memory()
            throws Exception {
        try (LeatProcess first = LeatProcess.watching(folder)) {
            first.letRun(Duration.ofSeconds(2));
            signal(first, "STOP");
            deleteFiles();
            try (LeatProcess second = LeatProcess.watching(folder)) {
                signal(first, "CONT");
                awaitHeard("store-in-use/");
                fail();
                await().atMost(SOON)
                        .until(
                                () ->
                                        heard().stream()
                                                        .filter(id -> id.contains("jet-1.ratio."))
                                                        .count()
                                                >= 2);
                assertEndsInOrder(second);
            }
            awaitHeard("store-works/");
            awaitNothingIsDue();
            assertEndsInOrder(first);
        }
        assertThat(ledger.integrity()).containsExactly("ok");
        assertThat(ledger.events("jet-1")).extracting(Ledger.Event::event).contains("raised");
        assertThat(beside(".found-1")).exists();
    }

    private static void signal(LeatProcess leat, String name) throws Exception {
        Process kill =
                new ProcessBuilder("kill", "-" + name, Long.toString(leat.pid()))
                        .inheritIO()
                        .start();
        assertThat(kill.waitFor()).isZero();
    }

    /** Files that are open take their room with them: there is none for a new one. */
    @Test
    void database_deleted_on_a_full_disk_is_begun_anew_once_there_is_room() throws Exception {
        try (TinyDisk disk = TinyDisk.mount(database.getParent())) {
            try (LeatProcess leat = LeatProcess.watching(folder)) {
                leat.letRun(Duration.ofSeconds(2));
                disk.fill();
                awaitSaid(leat, "the disk is full");
                deleteFiles();
                disk.fill();
                fail();
                awaitHeard("jet-1.ratio.");
                leat.letRun(Duration.ofSeconds(3));
                assertThat(isHeard("store-anew/")).isFalse();

                disk.makeRoom();

                awaitHeard("store-anew/");
                awaitNothingIsDue();
                assertEndsInOrder(leat);
            }
            assertEverythingHeardIsStored();
        }
    }

    @Test
    void disk_that_fails_keeps_nobody_from_being_told_and_repaired_it_is_gone_on_with()
            throws Exception {
        try (LoopDisk disk = LoopDisk.mount(database.getParent())) {
            List<String> meanwhile;
            try (LeatProcess leat = LeatProcess.watching(folder)) {
                leat.letRun(Duration.ofSeconds(2));
                disk.fail();
                awaitSaid(leat, "store: ");
                fail();
                awaitHeard("jet-1.ratio.");
                meanwhile = heard();
                leat.terminate();
                assertThat(leat.log()).contains("are lost with the end").doesNotContain("\tat ");
            }
            disk.repair();
            try (LeatProcess again = LeatProcess.watching(folder)) {
                await().atMost(SOON).until(() -> heard().size() > meanwhile.size());
                awaitNothingIsDue();
                assertEndsInOrder(again);
            }
            assertThat(ledger.integrity()).containsExactly("ok");
            assertThat(ledger.events("jet-1")).extracting(Ledger.Event::event).contains("raised");
        }
    }
}
