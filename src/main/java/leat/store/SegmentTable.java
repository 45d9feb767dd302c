package leat.store;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.segment.DamagedSegment;
import leat.segment.Segments;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.Tick;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The rows of {@code segment}. Thread-confined. */
final class SegmentTable {

    private static final Logger LOG = LoggerFactory.getLogger(SegmentTable.class);

    private static final String COLUMNS =
            "SELECT s.first_seq, s.last_seq, s.ticks, m.name, s.from_us, s.body"
                    + " FROM segment s JOIN machine m ON m.id = s.machine WHERE s.machine = ";

    private static final String FIND = COLUMNS + "? AND ";

    /** They lie one after the other: the one that begins at or before an input, or the next. */
    private static final String AFTER =
            COLUMNS
                    + """
                    ?1 AND s.first_seq =
                        (SELECT min(first_seq) FROM segment
                         WHERE machine = ?1 AND last_seq > ?2 AND first_seq >= coalesce(
                             (SELECT max(first_seq) FROM segment
                              WHERE machine = ?1 AND first_seq <= ?2), 0))
                    """;

    private final Db db;

    SegmentTable(Db db) {
        this.db = db;
    }

    /**
     * A stored segment.
     *
     * @param body as {@link Segments#write} made it, unless the disk has damaged it since
     */
    record Sealed(
            long firstSeq, long lastSeq, long ticks, String machine, long fromMicros, byte[] body) {

        static Sealed read(ResultRow row) {
            return new Sealed(
                    row.number(),
                    row.number(),
                    row.number(),
                    row.text(),
                    row.number(),
                    row.bytes());
        }

        /** Its inputs; one that is damaged costs itself alone, and that is said. */
        void inputs(InputVisitor visitor) {
            long[] seq = {firstSeq};
            try {
                Segments.read(body, input -> visitor.input(seq[0]++, input));
            } catch (DamagedSegment e) {
                LOG.warn(
                        "store: {} s of readings of {} from {} on are damaged and left out: {}",
                        ticks,
                        machine,
                        Instant.EPOCH.plus(fromMicros, ChronoUnit.MICROS),
                        e.getMessage());
            }
        }

        List<Fed> inputs() {
            List<Fed> inputs = new ArrayList<>();
            inputs((seq, input) -> inputs.add(new Fed(seq, input)));
            return inputs;
        }
    }

    /** An input and its number. */
    record Fed(long seq, Input input) {}

    /** Writes a row for consecutive inputs. */
    void put(long machine, List<Fed> fed) {
        long from = Long.MAX_VALUE;
        long to = Long.MIN_VALUE;
        long samples = 0;
        long ticks = 0;
        List<Input> inputs = new ArrayList<>(fed.size());
        for (Fed each : fed) {
            Input input = each.input();
            inputs.add(input);
            from = Math.min(from, input.atMicros());
            to = Math.max(to, input.atMicros());
            samples += input instanceof Reading ? 1 : 0;
            ticks += input instanceof Tick ? 1 : 0;
        }
        long lastSeq = fed.get(fed.size() - 1).seq();
        db.insert("segment", "machine, first_seq, last_seq, from_us, to_us, samples, ticks, body")
                .number(machine)
                .number(fed.get(0).seq())
                .number(lastSeq)
                .number(from)
                .number(to)
                .number(samples)
                .number(ticks)
                .bytes(Segments.write(inputs))
                .now();
        db.write("UPDATE machine SET sealed_ticks = sealed_ticks + ?, sealed_seq = ? WHERE id = ?")
                .number(ticks)
                .number(lastSeq)
                .number(machine)
                .now();
    }

    /** The one that holds the next input after {@code seq}. */
    Optional<Sealed> after(long machine, long seq) {
        return db.first(AFTER, Sealed::read, machine, seq);
    }

    /** The newest that begins at or before {@code seq}. */
    Optional<Sealed> before(long machine, long seq) {
        return db.first(
                FIND + "s.first_seq <= ? ORDER BY s.first_seq DESC LIMIT 1",
                Sealed::read,
                machine,
                seq);
    }

    /** The first whose inputs span a time. */
    Optional<Sealed> around(long machine, long micros) {
        return db.first(
                FIND + "s.from_us <= ? AND s.to_us >= ? ORDER BY s.first_seq LIMIT 1",
                Sealed::read,
                machine,
                micros,
                micros);
    }

    /**
     * Number of the first input of the first segment that begins at or after a time; 0 for none.
     */
    long firstSeqFrom(long machine, long micros) {
        return db.number(
                "SELECT min(first_seq) FROM segment WHERE machine = ? AND from_us >= ?",
                machine,
                micros);
    }
}
