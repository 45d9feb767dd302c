package leat.store;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Measurand;
import leat.rule.Baseline;
import leat.rule.Learning;
import leat.rule.Usual;

/**
 * The rows of {@code baseline}, {@code baseline_start}, {@code baseline_figure}, {@code learning}.
 */
final class BaselineTables {

    static final String LEARNING = "at_us, good, wanted, cause";

    /** Read with {@link #baseline}. */
    static final String BASELINE = "machine, seq, nth, learned_us";

    private static final String OUTCOME = "machine, seq, nth, ";

    private static final String IN_FORCE =
            """
            SELECT b.machine, b.seq, b.nth, b.learned_us FROM baseline b
            WHERE b.machine = ?1 AND b.seq <= ?2 AND b.learned_us <= ?3 AND NOT EXISTS (
                SELECT 1 FROM learning l WHERE l.machine = ?1 AND l.good = 0
                AND l.seq > b.seq AND l.seq <= ?2 AND l.at_us <= ?3)
            ORDER BY b.seq DESC LIMIT 1
            """;

    private static final String PROGRESS =
            "SELECT "
                    + LEARNING
                    + " FROM learning WHERE machine = ? AND seq <= ? ORDER BY seq DESC LIMIT 1";

    private BaselineTables() {}

    static void put(Db db, Write row, long machine, long seq, long nth, Baseline baseline) {
        row.number(baseline.learnedAtMicros()).now();
        int place = 0;
        for (long startedMicros : baseline.starts()) {
            db.insert("baseline_start", OUTCOME + "place, started_us")
                    .number(machine)
                    .number(seq)
                    .number(nth)
                    .number(++place)
                    .number(startedMicros)
                    .now();
        }
        baseline.figures()
                .forEach(
                        (measurand, usual) ->
                                db.insert(
                                                "baseline_figure",
                                                OUTCOME + "measurand, median, spread, starts")
                                        .number(machine)
                                        .number(seq)
                                        .number(nth)
                                        .text(measurand.key())
                                        .real(usual.median())
                                        .real(usual.spread())
                                        .number(usual.count())
                                        .now());
    }

    static Baseline baseline(Db db, Row row) {
        long machine = row.number();
        long seq = row.number();
        long nth = row.number();
        long learnedMicros = row.number();
        List<Long> starts =
                db.list(
                        "SELECT started_us FROM baseline_start"
                                + " WHERE machine = ? AND seq = ? AND nth = ? ORDER BY place",
                        Row::number,
                        machine,
                        seq,
                        nth);
        Map<Measurand, Usual> figures = new EnumMap<>(Measurand.class);
        db.list(
                        "SELECT measurand, median, spread, starts FROM baseline_figure"
                                + " WHERE machine = ? AND seq = ? AND nth = ?",
                        found ->
                                Map.entry(
                                        StartupFigures.measurand(found.text()),
                                        new Usual(
                                                found.real(), found.real(), (int) found.number())),
                        machine,
                        seq,
                        nth)
                .forEach(figure -> figures.put(figure.getKey(), figure.getValue()));
        return new Baseline(learnedMicros, starts, figures);
    }

    static Write put(Write write, Learning learning) {
        return write.number(learning.atMicros())
                .number(learning.good())
                .number(learning.wanted())
                .word(learning.cause());
    }

    static Learning learning(Row row) {
        return new Learning(
                row.number(),
                (int) row.number(),
                (int) row.number(),
                row.word(Learning.Cause.class));
    }

    /** The baseline in force after an input and at a time. */
    static Optional<Baseline> inForce(Db db, long machine, long seq, long atMicros) {
        return db.first(IN_FORCE, row -> baseline(db, row), machine, seq, atMicros);
    }

    /** How far learning had come after an input; empty when it had not begun. */
    static Optional<Learning> progress(Db db, long machine, long seq) {
        return db.first(PROGRESS, BaselineTables::learning, machine, seq);
    }
}
