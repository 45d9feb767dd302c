package leat.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The one writer of a store. It creates folder and file, brings an older file up to date, and keeps
 * every other leat from writing. What {@link #commit} has written is on the disk when it returns,
 * in the file that whoever looks finds there: one that was deleted or replaced meanwhile is noticed
 * before the next commit.
 *
 * <p>Thread-confined to the engine thread, but for {@link #generation}. Every method throws a {@link StoreException} for trouble
 * that the field can bring.
 */
public final class Store implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Store.class);

    /** Machine seconds deleted per call of {@link #prune}: a few hundredths of a second of work. */
    private static final long PRUNED_TICKS = 300;

    /**
     * The least seconds of each machine per call. One call each ten seconds then deletes as fast as
     * any number of machines writes.
     */
    private static final long LEAST_TICKS = 20;

    /**
     * Deletes messages that were delivered or given up long ago. An alarm that stands keeps its
     * messages: they say who was told. A message that waits to be folded stays until another tells
     * it. The message that tells it stays as long, or leat would tell it again.
     */
    private static final String OLD_MESSAGES =
            """
            DELETE FROM outbox WHERE number IN
                (SELECT number FROM outbox o
                 WHERE coalesce(delivered_us, given_up_us,
                         CASE WHEN folded_into IS NOT NULL THEN at_us END) < ?
                     AND alarm_id NOT IN (SELECT id FROM alarm WHERE state <> 'normal')
                     AND (folded_into IS NULL OR given_up_us IS NOT NULL OR EXISTS
                         (SELECT 1 FROM outbox s
                          WHERE s.message_id = o.folded_into AND s.route = o.route))
                     AND NOT EXISTS (SELECT 1 FROM outbox f
                          WHERE f.folded_into = o.message_id AND f.route = o.route)
                 ORDER BY number LIMIT 100)
            """;

    private static final long NO_RUN = 0;

    /** What could not be begun anew is tried again so many commits later: it may be large. */
    private static final int ATTEMPTS_SKIPPED = 9;

    private final Path file;
    private final Schema schema;
    private WriterLock lock;
    private Db db;
    private StoreFiles files;
    private CommitWork work;
    private Optional<Start> start = Optional.empty();
    private long run = NO_RUN;
    private boolean closed;

    private volatile int generation;

    /** A new file that has taken its name and could not be opened yet. */
    private Optional<Placed> placed = Optional.empty();

    private int attemptsToSkip;
    private Optional<StoreException> failed = Optional.empty();

    private record Start(String version, String configHash, String configText) {
        void enter(Db db, long atMicros) {
            db.inOneTransaction(
                    () -> {
                        db.write(
                                        "INSERT INTO config VALUES (?, ?, ?) ON CONFLICT (hash) DO NOTHING")
                                .text(configHash)
                                .text(configText)
                                .number(atMicros)
                                .now();
                        db.insert("run", "started_us, version, config_hash")
                                .number(atMicros)
                                .text(version)
                                .text(configHash)
                                .now();
                    });
        }
    }

    private record Placed(StoreFiles files, String became) {}

    private Store(Path file, Schema schema, WriterLock lock, Db db) {
        this.file = file;
        this.schema = schema;
        this.lock = lock;
        this.db = db;
        this.files = StoreFiles.of(file);
        this.work = new CommitWork(db, 0);
    }

    /** Opens the store, creating or upgrading it as needed. */
    public static Store open(Path dbFile) {
        return open(dbFile, Schema.current());
    }

    static Store open(Path dbFile, Schema schema) {
        makeFolder(dbFile);
        WriterLock lock = WriterLock.take(dbFile);
        try {
            return new Store(dbFile, schema, lock, migrated(Db.writing(dbFile), schema));
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    private static Db migrated(Db db, Schema schema) {
        try {
            schema.migrate(db);
            return db;
        } catch (RuntimeException e) {
            db.close();
            throw e;
        }
    }

    private static void makeFolder(Path dbFile) {
        try {
            Files.createDirectories(dbFile.toAbsolutePath().getParent());
        } catch (IOException e) {
            throw new StoreException.Unavailable(
                    dbFile, "its folder cannot be made. Check path and rights (" + e + ")", e);
        }
    }

    /**
     * Notes that a leat starts under a configuration. Outcomes may name its hash from now on.
     *
     * @param version of the program
     * @param atMicros now, microseconds UTC
     * @return the number of the run
     */
    public long startRun(String version, String configHash, String configText, long atMicros) {
        Start now = new Start(version, configHash, configText);
        now.enter(db, atMicros);
        start = Optional.of(now);
        run = db.number("SELECT max(id) FROM run");
        return run;
    }

    /** Notes an orderly end. A run without one was killed. */
    public void endRun(long atMicros) {
        db.inOneTransaction(
                () ->
                        db.write("UPDATE run SET ended_us = ? WHERE id = ?")
                                .number(atMicros)
                                .number(run)
                                .now());
    }

    /**
     * Writes the whole batch or nothing of it, and does not change the batch.
     *
     * @throws StoreException.Full when the disk is full; the same batch can be committed later
     */
    public void commit(Batch batch) {
        if (!batch.isEmpty()) {
            work.number(batch);
            requireOurs();
            work.commit(batch);
        }
    }

    private void requireOurs() {
        Optional<String> amiss = files.amiss();
        if (amiss.isPresent()) {
            throw new StoreException.Gone(file, amiss.get(), null);
        }
        if (!lock.holds()) {
            takeLockAnew();
            if (isWrittenByAnother()) {
                throw new StoreException.Gone(file, "another leat has written to it", null);
            }
        }
    }

    /** Its file was deleted or replaced: whoever comes first has the right to write. */
    private void takeLockAnew() {
        WriterLock taken = WriterLock.take(file);
        lock.close();
        lock = taken;
        LOG.warn("{}: its lock file was deleted while leat runs; made anew", file);
    }

    private boolean isWrittenByAnother() {
        return run != NO_RUN && db.number("SELECT max(id) FROM run") != run;
    }

    /**
     * Begins a new file in the place of the one that was opened, with everything but readings and
     * snapshots that can still be read of that. What else lies there is moved aside. Nothing is
     * touched while another leat holds the right to write.
     *
     * @param why what {@link #commit} found
     * @param atMicros now, microseconds UTC
     * @return in plain words what became of what was stored
     * @throws StoreException.InUse when another leat was quicker
     */
    public String beginAnew(StoreException why, long atMicros) {
        makeFolder(file);
        if (!lock.holds()) {
            takeLockAnew();
        }
        if (attemptsToSkip > 0) {
            attemptsToSkip--;
            throw failed.orElseThrow();
        }
        try {
            Placed next =
                    placed.filter(each -> each.files().isDatabaseWhole())
                            .orElseGet(() -> place(why, atMicros));
            placed = Optional.of(next);
            moveTo(migrated(Db.writing(file), schema));
            placed = Optional.empty();
            return next.became();
        } catch (StoreException e) {
            failed = Optional.of(e);
            attemptsToSkip = ATTEMPTS_SKIPPED;
            throw e;
        }
    }

    private Placed place(StoreException why, long atMicros) {
        try (NewFile fresh = new NewFile(file, schema)) {
            boolean carried = canBeRead(why) && fresh.carry(db);
            if (!carried && start.isPresent()) {
                fresh.write(into -> start.get().enter(into, atMicros));
            }
            String moved = fresh.takePlace(files);
            return new Placed(
                    StoreFiles.of(file),
                    (carried
                                    ? "everything but the readings was carried over"
                                    : "what it held cannot be read any more")
                            + moved);
        } catch (IOException e) {
            throw new StoreException.Unavailable(
                    file, "no new one can be begun. Check owner, rights and disk (" + e + ")", e);
        }
    }

    /** What only the log held is moved into the file first, so that it is whole wherever it lies. */
    private boolean canBeRead(StoreException why) {
        try {
            if (why instanceof StoreException.Gone && files.isDatabaseWhole()) {
                db.checkpoint();
            }
            return !isWrittenByAnother();
        } catch (StoreException | IllegalStateException e) {
            LOG.debug("the old file cannot be read", e);
            return false;
        }
    }

    /**
     * Only then the old one is closed. SQLite sees that another file has its name, and leaves alone
     * what lies beside it.
     */
    private void moveTo(Db next) {
        Db before = db;
        work = new CommitWork(next, work.lastMessage());
        db = next;
        files = StoreFiles.of(file);
        run = run == NO_RUN ? NO_RUN : db.number("SELECT max(id) FROM run");
        generation++;
        before.close();
    }

    /**
     * Rises when another file has taken the place of the one that was opened: whoever reads opens
     * it anew. From any thread.
     */
    public int generation() {
        return generation;
    }

    /**
     * Deletes the oldest inputs and delivered messages, a bounded slice a call. Outcomes, alarms
     * and journal stay. Inputs after a machine's oldest snapshot stay too: a restart needs them.
     *
     * @param olderThanMicros event time, microseconds UTC; inputs of younger seconds stay
     * @return rows deleted; 0 when there is nothing left to delete
     */
    public long prune(long olderThanMicros) {
        long[] deleted = {0};
        db.inOneTransaction(
                () -> {
                    List<Long> machines = db.list("SELECT id FROM machine", ResultRow::number);
                    long each = Math.max(LEAST_TICKS, PRUNED_TICKS / Math.max(1, machines.size()));
                    for (long machine : machines) {
                        for (long tick : oldTicks(machine, olderThanMicros, each)) {
                            deleted[0] += pruneSecond(machine, tick);
                        }
                    }
                    db.write(OLD_MESSAGES).number(olderThanMicros).now();
                });
        return deleted[0];
    }

    private List<Long> oldTicks(long machine, long olderThanMicros, long atMost) {
        long lastNotNeeded = db.number("SELECT min(seq) FROM snapshot WHERE machine = ?", machine);
        return db.list(
                """
                SELECT seq FROM input INDEXED BY input_tick
                WHERE machine = ? AND kind = 100 AND at_us < ? AND seq <= ?
                ORDER BY at_us LIMIT ?
                """,
                ResultRow::number,
                machine,
                olderThanMicros,
                lastNotNeeded,
                atMost);
    }

    /** The tick and what was fed since the tick before it. */
    private long pruneSecond(long machine, long tick) {
        long before =
                db.number(
                        """
                        SELECT seq FROM input WHERE machine = ? AND seq < ? AND +kind = 100
                        ORDER BY seq DESC LIMIT 1
                        """,
                        machine,
                        tick);
        String delete = "DELETE FROM input WHERE machine = ? AND seq > ? AND seq <= ?";
        int samples =
                db.write(delete + " AND kind < 100")
                        .number(machine)
                        .number(before)
                        .number(tick)
                        .now();
        int others = db.write(delete).number(machine).number(before).number(tick).now();
        db.write("UPDATE machine SET samples = samples - ? WHERE id = ?")
                .number(samples)
                .number(machine)
                .now();
        return (long) samples + others;
    }

    /**
     * Moves what the write-ahead log holds into the database file and empties the log.
     *
     * @return false when a reader held it up; try again later
     */
    public boolean checkpoint() {
        return db.checkpoint();
    }

    /** Size of the write-ahead log, bytes. It keeps growing while a reader holds an old view. */
    public long walBytes() {
        return db.wal().toFile().length();
    }

    /** For tests of a full disk: the file may not grow beyond so many pages. */
    void limitPages(long pages) {
        db.number("PRAGMA max_page_count = " + pages);
    }

    /** Pages in use, to limit from. */
    long pages() {
        return db.number("PRAGMA page_count");
    }

    @Override
    public void close() {
        if (closed) {
            return;
        }
        closed = true;
        try {
            db.close();
        } finally {
            lock.close();
        }
    }
}
