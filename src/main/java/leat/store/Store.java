package leat.store;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import leat.files.OwnFiles;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The one writer of a store. It creates folder and file, brings an older file up to date, and keeps
 * every other leat from writing. What {@link #commit} has written is on the disk when it returns,
 * in the file that whoever looks finds there: one that was deleted or replaced meanwhile is noticed
 * before the next commit.
 *
 * <p>Thread-confined to the engine thread, but for {@link #generation}. Every method throws a
 * {@link StoreException} for trouble that the field can bring.
 */
public final class Store implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Store.class);

    /**
     * Deletes what was settled long ago and many messages since. An alarm that stands keeps its
     * messages: they say who was told. A message that waits to be folded stays until another tells
     * it. The message that tells it stays as long, or leat would tell it again.
     */
    private static final String OLD_MESSAGES =
            """
            DELETE FROM outbox WHERE number IN
                (SELECT number FROM outbox o
                 WHERE number <= (SELECT max(number) FROM outbox) - ?
                     AND (delivered_us IS NOT NULL OR given_up_us IS NOT NULL
                         OR folded_into IS NOT NULL)
                     AND alarm_id NOT IN (SELECT id FROM alarm WHERE state <> 'normal')
                     AND (folded_into IS NULL OR given_up_us IS NOT NULL OR EXISTS
                         (SELECT 1 FROM outbox s
                          WHERE s.message_id = o.folded_into AND s.route = o.route))
                     AND NOT EXISTS (SELECT 1 FROM outbox f
                          WHERE f.folded_into = o.message_id AND f.route = o.route)
                 ORDER BY number LIMIT 100)
            """;

    private static final long NO_RUN = 0;

    private final Path file;
    private final Renewal renewal;
    private final StoreRights rights;
    private WriterLock lock;
    private Db db;
    private StoreFiles files;
    private CommitWork work;
    private Sealing sealing;
    private final Retention retention = new Retention();
    private Optional<Start> start = Optional.empty();
    private long run = NO_RUN;
    private boolean closed;

    private volatile int generation;

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

    private Store(Path file, Schema schema, StoreRights rights, WriterLock lock, Db db) {
        this.file = file;
        this.renewal = new Renewal(file, schema);
        this.rights = rights;
        this.lock = lock;
        this.db = db;
        this.files = StoreFiles.of(file);
        this.work = new CommitWork(db, 0);
        this.sealing = new Sealing(db);
        rights.keep();
    }

    /** Opens the store for its own user alone, creating or upgrading it as needed. */
    public static Store open(Path dbFile) {
        return open(dbFile, OwnFiles.PRIVATE);
    }

    /**
     * Opens the store, creating or upgrading it as needed.
     *
     * @param own who may read its files
     */
    public static Store open(Path dbFile, OwnFiles own) {
        return open(dbFile, Schema.current(), own);
    }

    static Store open(Path dbFile, Schema schema) {
        return open(dbFile, schema, OwnFiles.PRIVATE);
    }

    private static Store open(Path dbFile, Schema schema, OwnFiles own) {
        schema.glance(dbFile);
        makeFolder(dbFile);
        WriterLock lock = WriterLock.take(dbFile);
        try {
            Db db = schema.migrated(Db.writing(dbFile));
            return new Store(dbFile, schema, new StoreRights(dbFile, own), lock, db);
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    private static void makeFolder(Path dbFile) {
        try {
            OwnFiles.makeFolder(dbFile.toAbsolutePath().getParent());
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
            renewal.isKept();
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
     * @return what became of what was stored
     * @throws StoreException.InUse when another leat was quicker
     */
    public BegunAnew beginAnew(StoreException why, long atMicros) {
        makeFolder(file);
        if (!lock.holds()) {
            takeLockAnew();
        }
        Renewal.Renewed next =
                renewal.begin(
                        why,
                        files,
                        fresh -> isOurs(why) && fresh.carry(db),
                        fresh -> fresh.carryAlone(db),
                        fresh -> start.ifPresent(now -> now.enter(fresh, atMicros)));
        moveTo(next.db());
        return next.begun();
    }

    /**
     * What only the log held is moved into the file first, so that it is whole wherever it lies.
     * What passes is thrown, to be tried again.
     */
    private boolean isOurs(StoreException why) {
        try {
            if (why instanceof StoreException.Gone && files.isDatabaseWhole()) {
                db.checkpoint();
            }
            return !isWrittenByAnother();
        } catch (StoreException e) {
            if (!SqlTrouble.isUnreadable(e)) {
                throw e;
            }
            LOG.debug("the old file cannot be read wholly", e);
            return true;
        }
    }

    /**
     * Only then the old one is closed. SQLite sees that another file has its name, and leaves alone
     * what lies beside it.
     */
    private void moveTo(Db next) {
        Db before = db;
        work = new CommitWork(next, work.lastMessage());
        sealing = new Sealing(next);
        db = next;
        files = StoreFiles.of(file);
        rights.keep();
        run = run == NO_RUN ? NO_RUN : db.number("SELECT max(id) FROM run");
        generation++;
        try {
            before.close();
        } catch (StoreException | IllegalStateException e) {
            LOG.debug("the old file was not closed in order", e);
        }
    }

    /**
     * Rises when another file has taken the place of the one that was opened: whoever reads opens
     * it anew. From any thread.
     */
    public int generation() {
        return generation;
    }

    /**
     * Seconds have passed: deletes the oldest inputs beyond those that are to be kept. It goes by
     * the order and the number of seconds that the store has seen, never by a clock; nothing is
     * deleted because a clock is wrong. Of each machine go at most twice as many seconds as have
     * passed, so that less than a day goes in a day even when far less is to be kept from now on;
     * what is sealed goes a segment at a time, as soon as it may go whole. Outcomes, alarms and
     * journal stay. Inputs after a machine's oldest snapshot stay too: a restart needs them.
     *
     * @param passedSeconds seconds since the last call
     * @param keptSeconds seconds of each machine to keep; those that went by without the machine,
     *     once it is no longer fed, count too
     * @return rows deleted
     */
    public long prune(long passedSeconds, long keptSeconds) {
        return retention.prune(db, passedSeconds, keptSeconds);
    }

    /**
     * Does a little of what turns rows of inputs that are older than an hour into segments.
     *
     * @return false when there is nothing to do at present
     */
    public boolean seal() {
        return sealing.step();
    }

    /**
     * Deletes a few messages that were delivered or given up, and after which so many others came.
     *
     * @param newest so many stay whatever became of them
     */
    public void pruneMessages(long newest) {
        db.inOneTransaction(() -> db.write(OLD_MESSAGES).number(newest).now());
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
