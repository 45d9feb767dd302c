package leat.store;

import java.util.ArrayList;
import java.util.List;
import leat.signal.Tick;
import leat.store.SegmentTable.Fed;

/**
 * Turns rows of inputs into segments, a slice at a time, so that no commit waits for it. What is
 * begun is in memory alone until the segment is stored: a restart begins it again. The rows go
 * after that, in slices too. Thread-confined.
 */
final class Sealing {

    /**
     * So many seconds of each machine stay rows, for people who look with SQL, and for restarts.
     */
    static final long FRESH_SECONDS = 3_600;

    /** And so many make a segment. */
    static final long SEGMENT_SECONDS = 600;

    /** A segment of more inputs than this ends earlier. */
    private static final int MOST_INPUTS = 65_536;

    private static final long SLICE = 4_096;

    /** Those first that have waited longest. */
    private static final String NEXT =
            """
            SELECT id, sealed_seq FROM machine WHERE ticks - sealed_ticks >= ?
            ORDER BY ticks - sealed_ticks DESC LIMIT 1
            """;

    private final Db db;
    private final StoredInputs inputs;
    private final SegmentTable segments;

    private final List<Fed> begun = new ArrayList<>();
    private long machine;
    private long sealedSeq;
    private long seconds;

    Sealing(Db db) {
        this.db = db;
        inputs = new StoredInputs(db);
        segments = new SegmentTable(db);
    }

    /**
     * @return false when there is nothing to do
     */
    boolean step() {
        long oldest = oldestRow();
        if (begun.isEmpty() && oldest > sealedSeq) {
            if (!isNextFound()) {
                return false;
            }
            oldest = oldestRow();
        }
        if (oldest <= sealedSeq) {
            letGo(oldest);
        } else if (!begun.isEmpty() && oldest > begun.get(0).seq()) {
            begun.clear(); // deleted meanwhile: less is to be kept
        } else {
            collect();
        }
        return true;
    }

    private boolean isNextFound() {
        seconds = 0;
        return db.first(NEXT, this::isNext, FRESH_SECONDS + SEGMENT_SECONDS).orElse(false);
    }

    private boolean isNext(ResultRow row) {
        machine = row.number();
        sealedSeq = row.number();
        return true;
    }

    /** A machine without rows has nothing that could go or be sealed. */
    private long oldestRow() {
        return db.first(
                        "SELECT min(seq) FROM input WHERE machine = ?",
                        ResultRow::maybeNumber,
                        machine)
                .orElseThrow()
                .orElse(Long.MAX_VALUE);
    }

    private void letGo(long oldest) {
        long last = Math.min(sealedSeq, oldest + SLICE - 1);
        db.inOneTransaction(
                () ->
                        db.write("DELETE FROM input WHERE machine = ? AND seq <= ?")
                                .number(machine)
                                .number(last)
                                .now());
    }

    private void collect() {
        long after = begun.isEmpty() ? sealedSeq : lastSeq();
        List<Fed> rows = inputs.rows(machine, after, Long.MAX_VALUE, SLICE);
        for (Fed fed : rows) {
            if (!begun.isEmpty() && fed.seq() != lastSeq() + 1) {
                seal();
                return;
            }
            begun.add(fed);
            seconds += fed.input() instanceof Tick ? 1 : 0;
            if (seconds == SEGMENT_SECONDS || begun.size() == MOST_INPUTS) {
                seal();
                return;
            }
        }
        if (rows.isEmpty()) {
            countAnew();
        }
    }

    private long lastSeq() {
        return begun.get(begun.size() - 1).seq();
    }

    private void seal() {
        db.inOneTransaction(() -> segments.put(machine, begun));
        sealedSeq = lastSeq();
        begun.clear();
        seconds = 0;
    }

    /** There are fewer rows than the machine's counts say: somebody else has deleted some. */
    private void countAnew() {
        begun.clear();
        db.inOneTransaction(
                () ->
                        db.write(
                                        """
                                        UPDATE machine SET sealed_ticks =
                                            (SELECT coalesce(sum(ticks), 0) FROM segment
                                             WHERE machine = ?1),
                                        ticks = (SELECT coalesce(sum(ticks), 0) FROM segment
                                             WHERE machine = ?1)
                                            + (SELECT count(*) FROM input
                                               WHERE machine = ?1 AND kind = 100)
                                        WHERE id = ?1
                                        """)
                                .number(machine)
                                .now());
    }
}
