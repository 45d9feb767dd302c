package leat.store;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import leat.files.OwnFiles;

/**
 * The one writer of a store. It creates folder and file, brings an older file up to date, and keeps
 * every other leat from writing. What {@link #commit} has written is on the disk when it returns.
 *
 * <p>Thread-confined to the engine thread. Every method throws a {@link StoreException} for trouble
 * that the field can bring.
 */
public final class Store implements AutoCloseable {

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

    private final WriterLock lock;
    private final Db db;
    private final CommitWork work;
    private long run = NO_RUN;
    private boolean closed;

    private Store(WriterLock lock, Db db) {
        this.lock = lock;
        this.db = db;
        this.work = new CommitWork(db);
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
        StoreRights rights = new StoreRights(dbFile, own);
        try {
            rights.beforeOpening();
        } catch (IOException e) {
            throw new StoreException.Unavailable(
                    dbFile, "its folder cannot be made. Check path and rights (" + e + ")", e);
        }
        WriterLock lock = WriterLock.take(dbFile);
        try {
            Store store = open(lock, Db.writing(dbFile), schema);
            rights.afterOpening();
            return store;
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    private static Store open(WriterLock lock, Db db, Schema schema) {
        try {
            schema.migrate(db);
            return new Store(lock, db);
        } catch (RuntimeException e) {
            db.close();
            throw e;
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
        db.inOneTransaction(
                () -> {
                    db.write("INSERT INTO config VALUES (?, ?, ?) ON CONFLICT (hash) DO NOTHING")
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
            work.commit(batch);
        }
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
