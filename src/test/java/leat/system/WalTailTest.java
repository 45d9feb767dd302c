package leat.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The reader of the log's end is itself held against logs that SQLite wrote. */
class WalTailTest {

    private static final int FRAME = 24 + 4096;

    @TempDir Path folder;

    private Path wal;
    private Connection connection;

    @BeforeEach
    void write_some_transactions_of_many_pages() throws SQLException {
        wal = folder.resolve("some.db-wal");
        connection = DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("some.db"));
        run("PRAGMA page_size = 4096");
        run("PRAGMA journal_mode = WAL");
        run("CREATE TABLE some (bytes BLOB)");
        run("INSERT INTO some VALUES (randomblob(40000))");
    }

    @AfterEach
    void close() throws SQLException {
        connection.close();
    }

    private void run(String sql) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    @Test
    void a_log_that_ends_with_a_commit_has_no_open_pages() throws IOException {
        assertThat(Files.size(wal)).isGreaterThan(10 * FRAME);

        assertThat(WalTail.of(wal)).isEqualTo(new WalTail(0));
    }

    @Test
    void pages_of_a_commit_whose_last_frame_is_missing_are_open() throws Exception {
        long before = Files.size(wal);
        run("INSERT INTO some VALUES (randomblob(40000))");
        byte[] log = Files.readAllBytes(wal);
        int pages = (int) ((log.length - before) / FRAME);

        Path torn = Files.write(folder.resolve("torn"), Arrays.copyOf(log, log.length - FRAME));

        assertThat(WalTail.of(torn)).isEqualTo(new WalTail(pages - 1));
    }

    @Test
    void what_is_left_of_an_older_log_is_not_counted() throws Exception {
        run("PRAGMA wal_checkpoint(RESTART)");
        run("INSERT INTO some VALUES (1)");
        assertThat(Files.size(wal)).isGreaterThan(10 * FRAME);

        assertThat(WalTail.of(wal)).isEqualTo(new WalTail(0));
    }

    @Test
    void a_log_that_is_not_there_has_no_open_pages() throws IOException {
        assertThat(WalTail.of(folder.resolve("none"))).isEqualTo(new WalTail(0));
    }
}
