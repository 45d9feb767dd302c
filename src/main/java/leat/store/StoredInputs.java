package leat.store;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Predicate;
import leat.segment.Kinds;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.store.SegmentTable.Fed;
import leat.store.SegmentTable.Sealed;

/**
 * Reads what a machine was fed, in segments and in rows, as one. The writer may seal rows
 * meanwhile: a segment is there before the rows that it holds go. Thread-confined.
 */
final class StoredInputs {

    /** Rows read at once. */
    private static final long SLICE = 4_096;

    private static final String ROWS =
            "SELECT seq, "
                    + InputTable.READ
                    + " FROM input WHERE machine = ? AND seq > ? AND seq <= ? ORDER BY seq LIMIT ?";

    private final Db db;
    private final SegmentTable segments;

    StoredInputs(Db db) {
        this.db = db;
        segments = new SegmentTable(db);
    }

    void read(long machine, long afterSeq, long toSeq, InputVisitor visitor) {
        long after = afterSeq;
        while (after < toSeq) {
            Optional<Sealed> sealed = segments.after(machine, after);
            if (sealed.isPresent()) {
                long from = after;
                sealed.get()
                        .inputs(
                                (seq, input) -> {
                                    if (seq > from && seq <= toSeq) {
                                        visitor.input(seq, input);
                                    }
                                });
                after = sealed.get().lastSeq();
                continue;
            }
            List<Fed> rows = rows(machine, after, toSeq, SLICE);
            if (segments.after(machine, after).isPresent()) {
                continue; // they were sealed meanwhile, and some may be gone
            }
            rows.forEach(fed -> visitor.input(fed.seq(), fed.input()));
            if (rows.size() < SLICE) {
                return;
            }
            after = rows.get(rows.size() - 1).seq();
        }
    }

    /** Inputs that are still rows. */
    List<Fed> rows(long machine, long afterSeq, long toSeq, long atMost) {
        return db.list(
                ROWS,
                row -> new Fed(row.number(), InputTable.read(row)),
                machine,
                afterSeq,
                toSeq,
                atMost);
    }

    OptionalLong firstSeqAt(long machine, long micros) {
        Optional<Sealed> around = segments.around(machine, micros);
        if (around.isPresent()) {
            return firstAt(around.get().inputs(), micros);
        }
        long tick =
                db.number(
                        """
                        SELECT min(seq) FROM input INDEXED BY input_tick
                        WHERE machine = ?1 AND kind = 100 AND at_us =
                            (SELECT max(at_us) FROM input INDEXED BY input_tick
                             WHERE machine = ?1 AND kind = 100 AND at_us <= ?2)
                        """,
                        machine,
                        micros);
        long sealedLater = tick == 0 ? segments.firstSeqFrom(machine, micros) : 0;
        return sealedLater == 0 ? firstRowAt(machine, micros, tick) : OptionalLong.of(sealedLater);
    }

    /** From one tick before: a reading may be fed a little after the tick of its second. */
    private OptionalLong firstRowAt(long machine, long micros, long tick) {
        long start =
                db.number(
                        """
                        SELECT seq FROM input WHERE machine = ? AND seq < ? AND +kind = 100
                        ORDER BY seq DESC LIMIT 1
                        """,
                        machine,
                        tick);
        return db.first(
                        """
                        SELECT seq FROM input WHERE machine = ? AND seq > ? AND at_us >= ?
                        ORDER BY seq LIMIT 1
                        """,
                        ResultRow::maybeNumber,
                        machine,
                        start,
                        micros)
                .orElse(OptionalLong.empty());
    }

    /** The same among the inputs of a segment. */
    private static OptionalLong firstAt(List<Fed> inputs, long micros) {
        long latest = Long.MIN_VALUE;
        long tick = 0;
        long before = 0;
        long start = 0;
        for (Fed fed : inputs) {
            if (fed.input() instanceof Tick at) {
                if (at.atMicros() <= micros && at.atMicros() > latest) {
                    latest = at.atMicros();
                    start = before;
                }
                before = fed.seq();
            }
        }
        for (Fed fed : inputs) {
            if (fed.seq() > start && fed.input().atMicros() >= micros) {
                return OptionalLong.of(fed.seq());
            }
        }
        return inputs.isEmpty() ? OptionalLong.empty() : OptionalLong.of(inputs.get(0).seq());
    }

    Optional<Input> latest(long machine, Channel channel, long afterSeq, long toSeq) {
        Optional<Input> row =
                db.first(
                        "SELECT "
                                + InputTable.READ
                                + " FROM input WHERE machine = ? AND seq > ? AND seq <= ?"
                                + " AND +kind IN (?, ?, ?) ORDER BY seq DESC LIMIT 1",
                        InputTable::read,
                        machine,
                        afterSeq,
                        toSeq,
                        (long) InputTable.readingKind(channel),
                        (long) Kinds.lost(channel),
                        (long) Kinds.back(channel));
        return row.or(() -> latestSealed(machine, channel, afterSeq, toSeq));
    }

    private Optional<Input> latestSealed(long machine, Channel channel, long afterSeq, long toSeq) {
        Optional<Sealed> sealed = segments.before(machine, toSeq);
        while (sealed.isPresent() && sealed.get().lastSeq() > afterSeq) {
            List<Fed> inputs = sealed.get().inputs();
            for (int i = inputs.size() - 1; i >= 0; i--) {
                Fed fed = inputs.get(i);
                if (fed.seq() > afterSeq
                        && fed.seq() <= toSeq
                        && about(channel).test(fed.input())) {
                    return Optional.of(fed.input());
                }
            }
            sealed = segments.before(machine, sealed.get().firstSeq() - 1);
        }
        return Optional.empty();
    }

    private static Predicate<Input> about(Channel channel) {
        return input ->
                input instanceof Reading reading && reading.channel() == channel
                        || input instanceof SourceLost lost && lost.channel() == channel
                        || input instanceof SourceBack back && back.channel() == channel;
    }
}
