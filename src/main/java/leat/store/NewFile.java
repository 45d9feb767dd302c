package leat.store;

import static java.nio.file.StandardCopyOption.ATOMIC_MOVE;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A database that is begun in the place of one that was deleted, replaced or cut while leat runs.
 * It is written under another name first, with what the old connection can still read, and then
 * takes the old name. What lies there is moved aside, never overwritten. Thread-confined.
 */
final class NewFile implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(NewFile.class);

    /** All but the readings and the states after them, each after those that it refers to. */
    private static final List<String> CARRIED =
            List.of(
                    "config",
                    "run",
                    "machine",
                    "outcome",
                    "alarm",
                    "journal",
                    "instruction",
                    "outbox",
                    "annunciator",
                    "nonce");

    /** What stands for itself where the rest cannot be read. */
    private static final List<String> ALONE = List.of("outbox", "annunciator", "nonce");

    private static final String NUMBERS =
            "DELETE FROM fresh.sqlite_sequence;"
                    + " INSERT INTO fresh.sqlite_sequence SELECT name, seq FROM main.sqlite_sequence";

    private final Path place;
    private final Schema schema;
    private final Path file;

    /**
     * @param place the name that it will have
     */
    NewFile(Path place, Schema schema) throws IOException {
        this.place = place;
        this.schema = schema;
        file = StoreFiles.beside(place, ".new");
        close();
        write(schema::migrate);
    }

    void write(Consumer<Db> work) {
        try (Db db = Db.building(file)) {
            work.accept(db);
        }
    }

    /** Leaves nothing behind that has not taken its place. */
    @Override
    public void close() throws IOException {
        Files.deleteIfExists(file);
        for (String suffix : StoreFiles.BESIDE) {
            Files.deleteIfExists(StoreFiles.beside(file, suffix));
        }
    }

    /**
     * Writes what the old connection can still read.
     *
     * @return false when most of it cannot be read, and never will be
     * @throws StoreException when it may be possible later: there is no room for it, for one
     */
    boolean carry(Db old) {
        return attached(old, () -> isCarried(old, CARRIED) || isCarriedAlone(old));
    }

    /** Writes only what stands for itself, as far as it can be read. */
    void carryAlone(Db old) {
        attached(old, () -> isCarriedAlone(old));
    }

    private static boolean isCarriedAlone(Db old) {
        ALONE.forEach(table -> isCarried(old, List.of(table)));
        return false;
    }

    private boolean attached(Db old, BooleanSupplier work) {
        detach(old);
        try {
            old.run("ATTACH '" + file.toString().replace("'", "''") + "' AS fresh");
        } catch (StoreException e) {
            return requireUnreadable(e);
        }
        try {
            return work.getAsBoolean();
        } finally {
            detach(old);
        }
    }

    /** What stays attached is let go before the next attempt. */
    private static void detach(Db old) {
        try {
            if (old.list("PRAGMA database_list", NewFile::nameOf).contains("fresh")) {
                old.run("DETACH fresh");
            }
        } catch (StoreException | IllegalStateException e) {
            LOG.debug("the new file stays attached to the old one", e);
        }
    }

    private static String nameOf(ResultRow database) {
        database.number();
        return database.text();
    }

    /** What passes is tried again later: the history is not dropped for it. */
    private static boolean requireUnreadable(StoreException e) {
        if (!SqlTrouble.isUnreadable(e)) {
            throw e;
        }
        LOG.debug("the old file cannot be read", e);
        return false;
    }

    /** Not IMMEDIATE: that would want to write the old one too. */
    private static boolean isCarried(Db old, List<String> tables) {
        try {
            old.run("BEGIN");
            tables.forEach(table -> copy(old, table));
            if (tables.equals(CARRIED)) {
                old.run(
                        "UPDATE fresh.machine SET samples = 0, ticks = 0, sealed_ticks = 0, sealed_seq = 0");
                old.run(NUMBERS);
            }
            old.run("COMMIT");
            return true;
        } catch (StoreException e) {
            old.rollBack(e);
            return requireUnreadable(e);
        } catch (IllegalStateException e) {
            old.rollBack(e);
            LOG.debug("the old file cannot be carried over", e);
            return false;
        }
    }

    /** By name: a column that joined by a step stands elsewhere than in a new file. */
    private static void copy(Db old, String table) {
        String columns =
                old
                        .list(
                                "SELECT name FROM pragma_table_info(?)",
                                row -> '"' + row.text() + '"',
                                table)
                        .stream()
                        .collect(Collectors.joining(", "));
        old.run(
                "INSERT INTO fresh.%s (%s) SELECT %s FROM main.%s"
                        .formatted(table, columns, columns, table));
    }

    /** Opens it as it will be opened there: what does not work shows before it has the name. */
    void prove() {
        try (Db db = Db.writing(file)) {
            schema.require(db);
        }
        if (StoreFiles.beside(file, "-wal").toFile().length() > 0) {
            throw new StoreException.Full(place, null);
        }
    }

    /**
     * Takes its place. What belongs to a file that is no longer there goes; what else lies there is
     * moved aside.
     *
     * @param before the files that leat had open
     * @return what was moved, in words; empty for nothing
     */
    String takePlace(StoreFiles before) throws IOException {
        Path aside = freeName();
        boolean isOld = before.isOpened(place);
        String moved = "";
        if (StoreFiles.isThere(place)) {
            Files.move(place, aside);
            moved = "; what lies there is now " + aside.getFileName();
        }
        for (String suffix : StoreFiles.BESIDE) {
            Path beside = StoreFiles.beside(place, suffix);
            if (before.isOpened(beside) && !isOld) {
                Files.delete(beside);
            } else if (StoreFiles.isThere(beside)) {
                Files.move(beside, StoreFiles.beside(aside, suffix));
            }
        }
        Files.move(file, place, ATOMIC_MOVE);
        return moved;
    }

    private Path freeName() {
        int number = 1;
        while (isTaken(StoreFiles.beside(place, ".found-" + number))) {
            number++;
        }
        return StoreFiles.beside(place, ".found-" + number);
    }

    private static boolean isTaken(Path file) {
        return StoreFiles.isThere(file)
                || StoreFiles.BESIDE.stream()
                        .anyMatch(suffix -> StoreFiles.isThere(StoreFiles.beside(file, suffix)));
    }
}
