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
        return db.list(
                NEXT,
                row -> {
                    long at = row.number();
                    int place = (int) row.number();
                    String config = row.text();
                    return new Said(machine, at, place, outcome(row), config);
                },
                id,
                seq,
                (long) nth,
                toSeq,
                (long) SLICE);
    }
}
