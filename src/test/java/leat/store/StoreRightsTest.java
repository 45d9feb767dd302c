package leat.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import leat.files.OwnFiles;
import leat.signal.Tick;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;

/** The text of site.yaml, names and notes are in the files: they are nobody else's. */
@DisabledOnOs(OS.WINDOWS)
class StoreRightsTest {

    private static final Map<String, String> PRIVATE =
            Map.of(
                    "data", "rwx------",
                    "leat.db", "rw-------",
                    "leat.db-wal", "rw-------",
                    "leat.db-shm", "rw-------",
                    "leat.db.lock", "rw-------");

    @TempDir private Path folder;
    private Path file;
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();

    @BeforeEach
    void name() {
        file = folder.resolve("data").resolve("leat.db");
        log.start();
        ((Logger) LoggerFactory.getLogger(StoreRights.class)).addAppender(log);
    }

    @AfterEach
    void listenNoMore() {
        ((Logger) LoggerFactory.getLogger(StoreRights.class)).detachAppender(log);
    }

    /** Of the folder and what is in it while leat runs. */
    private Map<String, String> rights(OwnFiles own) throws IOException {
        Map<String, String> found = new TreeMap<>();
        try (Store store = Store.open(file, own);
                Stream<Path> all = Files.walk(file.getParent(), 1)) {
            assertThat(store.pages()).isPositive();
            for (Path each : all.toList()) {
                found.put(
                        each.getFileName().toString(),
                        PosixFilePermissions.toString(Files.getPosixFilePermissions(each)));
            }
        }
        found.remove("native");
        return found;
    }

    private List<String> said() {
        return log.list.stream().map(ILoggingEvent::getFormattedMessage).toList();
    }

    private void open(String rights, Path... files) throws IOException {
        for (Path each : files) {
            Files.setPosixFilePermissions(each, PosixFilePermissions.fromString(rights));
        }
    }

    @Test
    void a_new_store_is_for_its_own_user_whatever_the_umask_is() throws IOException {
        assertThat(rights(OwnFiles.PRIVATE)).isEqualTo(PRIVATE);
        assertThat(said()).isEmpty();
    }

    @Test
    void an_older_store_is_closed_to_others_and_that_is_said_once() throws IOException {
        Store.open(file).close();
        open("rwxr-xr-x", file.getParent());
        open("rw-r--r--", file, file.resolveSibling("leat.db.lock"));

        assertThat(rights(OwnFiles.PRIVATE)).isEqualTo(PRIVATE);
        assertThat(rights(OwnFiles.PRIVATE)).isEqualTo(PRIVATE);

        assertThat(said()).hasSize(1);
        assertThat(said().get(0)).contains(file.toString(), "others could read");
    }

    @Test
    void a_folder_with_anything_else_in_it_stays_open() throws IOException {
        Files.createDirectories(file.getParent());
        open("rwxr-xr-x", file.getParent());
        Files.createFile(file.resolveSibling("site.yaml"));

        assertThat(rights(OwnFiles.PRIVATE))
                .containsEntry("data", "rwxr-xr-x")
                .containsEntry("leat.db", "rw-------");
    }

    @Test
    void a_group_may_look_and_not_write() throws IOException {
        String group = Files.readAttributes(folder, PosixFileAttributes.class).group().getName();

        Map<String, String> found = rights(new OwnFiles(Optional.of(group)));

        assertThat(found)
                .containsEntry("data", "rwxr-x---")
                .containsEntry("leat.db", "rw-r-----")
                .containsEntry("leat.db-wal", "rw-r-----")
                .containsEntry("leat.db-shm", "rw-r-----")
                .containsEntry("leat.db.lock", "rw-------");
        assertThat(said()).isEmpty();
    }

    @Test
    void a_group_that_there_is_not_opens_nothing_and_stops_nothing() throws IOException {
        assertThat(rights(new OwnFiles(Optional.of("no-such-group")))).isEqualTo(PRIVATE);
        assertThat(said()).hasSize(1).allMatch(line -> line.contains("no-such-group"));
    }

    @Test
    void a_file_that_is_begun_anew_has_the_rights_of_the_one_before_it() throws IOException {
        String group = Files.readAttributes(folder, PosixFileAttributes.class).group().getName();
        Batch batch = new Batch();
        batch.fed("jet-1", 1, new Tick(0));

        try (Store store = Store.open(file, new OwnFiles(Optional.of(group)))) {
            Files.delete(file);
            Files.delete(file.resolveSibling("leat.db.lock"));
            StoreException gone =
                    catchThrowableOfType(StoreException.class, () -> store.commit(batch));
            store.beginAnew(gone, 0);

            assertThat(Files.getPosixFilePermissions(file))
                    .isEqualTo(PosixFilePermissions.fromString("rw-r-----"));
            assertThat(Files.getPosixFilePermissions(file.resolveSibling("leat.db.lock")))
                    .isEqualTo(PosixFilePermissions.fromString("rw-------"));
        }
    }
}
