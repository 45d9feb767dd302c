package leat.store;

import java.util.List;
import leat.json.Kinds;
import leat.json.RecordJson;
import leat.watch.Outcome;

/** The rows of {@code outcome}: everything that was said, each kind in the JSON of its record. */
final class OutcomeTable {

    /** Outcomes read at once. */
    private static final int SLICE = 1_000;

    private static final Kinds<Outcome> KINDS = Kinds.of(Outcome.class);

    private static final String NEXT =
            """
            SELECT seq, nth, config, kind, body FROM outcome
            WHERE machine = ? AND (seq, nth) > (?, ?) AND seq <= ? ORDER BY seq, nth LIMIT ?
            """;

    private static final String OF_KIND =
            """
            SELECT seq, nth, config, kind, body FROM outcome
            WHERE kind = ? AND machine = ? AND seq > ? AND seq <= ? ORDER BY seq, nth
            """;

    private static final String NEWEST =
            """
            SELECT seq, nth, config, kind, body FROM outcome INDEXED BY outcome_kind
            WHERE kind = ? AND machine = ? ORDER BY seq DESC, nth DESC LIMIT ?
            """;

    private OutcomeTable() {}

    static void put(Db db, long machine, Said said) {
        Outcome outcome = said.outcome();
        db.insert("outcome", "machine, seq, nth, at_us, kind, config, body")
                .number(machine)
                .number(said.seq())
                .number(said.nth())
                .number(outcome.atMicros())
                .text(Kinds.word(outcome.getClass()))
                .text(said.configHash())
                .text(RecordJson.write(outcome))
                .now();
    }

    /** Kind and body; the outcome is of the type that whoever asks for its kind expects. */
    static Outcome outcome(ResultRow row) {
        return RecordJson.read(KINDS.type(row.text()), row.text());
    }

    /** The outcome of a kind, of which only the body was asked for. */
    static <O extends Outcome> O outcome(Class<O> kind, ResultRow row) {
        return RecordJson.read(kind, row.text());
    }

    /**
     * The next outcomes of a machine in their order; an empty list when there are no more.
     *
     * @param seq after this input, or
     * @param nth after this outcome of it
     */
    static List<Said> next(Db db, String machine, long id, long seq, int nth, long toSeq) {
        return db.list(NEXT, row -> said(machine, row), id, seq, (long) nth, toSeq, (long) SLICE);
    }

    /** All outcomes of one kind, in their order. */
    static List<Said> ofKind(
            Db db,
            Class<? extends Outcome> kind,
            String machine,
            long id,
            long afterSeq,
            long toSeq) {
        return db.list(OF_KIND, row -> said(machine, row), Kinds.word(kind), id, afterSeq, toSeq);
    }

    /** The newest outcomes of one kind, newest first. */
    static List<Said> newest(
            Db db, Class<? extends Outcome> kind, String machine, long id, int atMost) {
        return db.list(NEWEST, row -> said(machine, row), Kinds.word(kind), id, (long) atMost);
    }

    private static Said said(String machine, ResultRow row) {
        long seq = row.number();
        int nth = (int) row.number();
        String config = row.text();
        return new Said(machine, seq, nth, outcome(row), config);
    }
}
