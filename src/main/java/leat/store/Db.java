package leat.store;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import leat.files.OwnFiles;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConfig.JournalMode;
import org.sqlite.SQLiteConfig.SynchronousMode;
import org.sqlite.SQLiteConfig.TempStore;

/**
 * One connection to a database file. SQL exceptions end here. Thread-confined.
 *
 * <p>Transactions are begun and ended by SQL of our own: the driver would begin the next one by
 * itself, and an IMMEDIATE one shuts the command line out.
 */
final class Db implements AutoCloseable {

    /** The engine must not stand still for long: it commits the same batch again a second later. */
    private static final int ENGINE_WAITS_MILLIS = 1_000;

    private static final int PERSON_WAITS_MILLIS = 5_000;
    private static final int JOURNAL_BYTES = 16 << 20;

    /** Of a new file: a commit writes whole pages, and each second changes little of many. */
    private static final int PAGE_BYTES = 1_024;

    private final Path file;
    private final Connection connection;
    private final SqlTrouble trouble;
    private final int busyMillis;
    private final Map<String, Write> prepared = new HashMap<>();
    private final Map<String, PreparedStatement> questions = new HashMap<>();

    /**
     * The name goes as a URI: in a plain one the driver would take what follows a question mark as
     * settings.
     *
     * @param how further URI parameters, from the question mark on
     */
    private Db(Path file, SQLiteConfig config, String how) {
        this.file = file;
        this.busyMillis = config.getBusyTimeout();
        this.trouble = new SqlTrouble(file);
        NativeLibrary.prepareBeside(file);
        try {
            this.connection = config.createConnection("jdbc:sqlite:" + file.toUri() + how);
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    /** For the engine. Creates the file where there is none. */
    static Db writing(Path file) {
        return writing(file, ENGINE_WAITS_MILLIS, JournalMode.WAL);
    }

    /** For a file that is to be moved: all of it is in the one file after each transaction. */
    static Db building(Path file) {
        return writing(file, ENGINE_WAITS_MILLIS, JournalMode.DELETE);
    }

    /** For the command line: a short transaction beside those of the engine. */
    static Db writingBeside(Path file) {
        return writing(file, PERSON_WAITS_MILLIS, JournalMode.WAL);
    }

    private static Db writing(Path file, int busyMillis, JournalMode journal) {
        SQLiteConfig config = common(busyMillis);
        config.setSynchronous(SynchronousMode.FULL);
        config.setJournalSizeLimit(JOURNAL_BYTES);
        config.enforceForeignKeys(true);
        makePrivate(file);
        Db db = new Db(file, config, "");
        try {
            db.run("PRAGMA page_size = " + PAGE_BYTES); // before the log, which fixes it
            db.first("PRAGMA journal_mode = " + journal, ResultRow::text);
            return db;
        } catch (RuntimeException e) {
            db.close();
            throw e;
        }
    }

    /** SQLite would make it as the umask says. */
    private static void makePrivate(Path file) {
        try {
            OwnFiles.make(file);
        } catch (IOException e) {
            throw new StoreException.Unavailable(
                    file, "it cannot be made. Check owner and rights of the folder (" + e + ")", e);
        }
    }

    static Db reading(Path file) {
        return reading(file, "");
    }

    /** Looks at the file alone, without its write-ahead log, takes no lock and leaves no trace. */
    static Db glancing(Path file) {
        return reading(file, "?immutable=1");
    }

    private static Db reading(Path file, String how) {
        SQLiteConfig config = common(PERSON_WAITS_MILLIS);
        config.setReadOnly(true);
        return new Db(file, config, how);
    }

    private static SQLiteConfig common(int busyMillis) {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(busyMillis);
        config.setTempStore(TempStore.MEMORY);
        config.setGetGeneratedKeys(false);
        return config;
    }

    Path file() {
        return file;
    }

    /** The write-ahead log beside the file; there is none while nobody has the file open. */
    Path wal() {
        return file.resolveSibling(file.getFileName() + "-wal");
    }

    /** Runs one or more statements that give no rows. */
    void run(String sql) {
        try (Statement statement = connection.createStatement()) {
            statement.executeUpdate(sql);
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    /** The statement, prepared once. */
    Write write(String sql) {
        return prepared.computeIfAbsent(sql, this::prepare);
    }

    /**
     * An insert of one row.
     *
     * @param columns separated by commas, in the order in which they will be filled
     */
    Write insert(String table, String columns) {
        String marks = columns.replaceAll("[^,]+", "?");
        return write("INSERT INTO " + table + " (" + columns + ") VALUES (" + marks + ")");
    }

    /**
     * Everything that {@code sql} finds; the answer is closed before this returns. The statement is
     * prepared once: to prepare it costs more than most answers.
     *
     * @param arguments {@code Long} or {@code String}
     */
    <T> List<T> list(String sql, Function<ResultRow, T> reader, Object... arguments) {
        PreparedStatement statement = question(sql);
        try {
            List<T> found = answer(statement, reader, arguments);
            questions.put(sql, statement);
            return found;
        } finally {
            if (questions.get(sql) != statement) {
                close(statement);
            }
        }
    }

    /** Out of the map while it is asked: a reader may ask the same within. */
    private PreparedStatement question(String sql) {
        PreparedStatement known = questions.remove(sql);
        try {
            return known == null ? connection.prepareStatement(sql) : known;
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    private <T> List<T> answer(
            PreparedStatement statement, Function<ResultRow, T> reader, Object... arguments) {
        List<T> found = new ArrayList<>();
        try {
            for (int i = 0; i < arguments.length; i++) {
                Object argument = arguments[i];
                statement.setObject(
                        i + 1, argument instanceof String text ? Text.stored(text) : argument);
            }
            try (ResultSet answer = statement.executeQuery()) {
                ResultRow row = new ResultRow(answer, trouble);
                while (row.next()) {
                    found.add(reader.apply(row));
                }
            }
        } catch (SQLException e) {
            throw trouble.of(e);
        }
        return found;
    }

    <T> Optional<T> first(String sql, Function<ResultRow, T> reader, Object... arguments) {
        return list(sql, reader, arguments).stream().findFirst();
    }

    /** The one number that {@code sql} gives; 0 for none. */
    long number(String sql, Object... arguments) {
        return first(sql, ResultRow::number, arguments).orElse(0L);
    }

    /**
     * Moves the write-ahead log into the file and empties it.
     *
     * @return false when a reader or writer held it up: this does not wait for it
     */
    boolean checkpoint() {
        run("PRAGMA busy_timeout = 0");
        try {
            return number("PRAGMA wal_checkpoint(TRUNCATE)") == 0;
        } finally {
            run("PRAGMA busy_timeout = " + busyMillis);
        }
    }

    /** All of {@code work} or nothing. */
    void inOneTransaction(Runnable work) {
        run("BEGIN IMMEDIATE");
        try {
            work.run();
            run("COMMIT");
        } catch (RuntimeException e) {
            rollBack(e);
            throw e;
        }
    }

    /** After an error within a transaction. */
    void rollBack(RuntimeException because) {
        try {
            // After an error the driver finalizes the statement, and rows queued in others are void
            forgetPrepared();
            run("ROLLBACK");
        } catch (RuntimeException e) {
            // The database has rolled back by itself on a full disk or an I/O error
            because.addSuppressed(e);
        }
    }

    private void forgetPrepared() {
        List<Write> all = List.copyOf(prepared.values());
        prepared.clear();
        all.forEach(Write::close);
        questions.values().forEach(Db::close);
        questions.clear();
    }

    private static void close(PreparedStatement question) {
        try {
            question.close();
        } catch (SQLException e) {
            // it is asked no more, and what was wrong with its answer has been told
        }
    }

    private Write prepare(String sql) {
        try {
            return new Write(connection.prepareStatement(sql), trouble);
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    @Override
    public void close() {
        forgetPrepared();
        try {
            connection.close();
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }
}
