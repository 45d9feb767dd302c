package leat.store;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Function;
import leat.alarm.ServiceChange;
import leat.signal.Instruction;
import leat.watch.Outcome;

/** Puts the outcomes of a machine together again from the tables of their kinds, in order. */
final class OutcomeReader {

    /** Outcomes read at once. */
    private static final long SLICE = 1_000;

    private static final String SLICE_END =
            """
            SELECT seq FROM (
                SELECT seq FROM phase_change WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                UNION ALL SELECT seq FROM startup WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                UNION ALL SELECT seq FROM steady WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                UNION ALL SELECT seq FROM rest WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                UNION ALL SELECT seq FROM alarm_event WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                UNION ALL SELECT seq FROM learning WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                UNION ALL SELECT seq FROM baseline WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                UNION ALL SELECT seq FROM refusal WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                UNION ALL SELECT seq FROM service WHERE machine = ?1 AND seq > ?2 AND seq <= ?3
                ORDER BY seq LIMIT ?4)
            ORDER BY seq DESC LIMIT 1
            """;

    private final Db db;
    private final String machine;
    private final long machineId;

    OutcomeReader(Db db, String machine, long machineId) {
        this.db = db;
        this.machine = machine;
        this.machineId = machineId;
    }

    /** Seq at which a slice after {@code after} ends; empty when there are no more outcomes. */
    OptionalLong sliceEnd(long after, long to) {
        return db.first(SLICE_END, Row::maybeNumber, machineId, after, to, SLICE)
                .orElse(OptionalLong.empty());
    }

    List<Said> slice(long after, long to) {
        List<Said> all = new ArrayList<>();
        all.addAll(
                read(
                        "phase_change",
                        EpisodeTables.PHASE_CHANGE,
                        row -> new Outcome.PhaseChanged(EpisodeTables.phaseChange(row)),
                        after,
                        to));
        all.addAll(
                read(
                        "startup",
                        "machine, seq, nth, "
                                + EpisodeTables.STARTUP
                                + ", "
                                + EpisodeTables.VERDICT,
                        row ->
                                new Outcome.StartupMeasured(
                                        EpisodeTables.startup(row, StartupFigures.of(db, row)),
                                        EpisodeTables.verdict(row)),
                        after,
                        to));
        all.addAll(
                read(
                        "steady",
                        EpisodeTables.STEADY,
                        row -> new Outcome.SteadyMeasured(EpisodeTables.steady(row)),
                        after,
                        to));
        all.addAll(
                read(
                        "rest",
                        EpisodeTables.REST,
                        row -> new Outcome.RestMeasured(EpisodeTables.rest(row)),
                        after,
                        to));
        all.addAll(
                read(
                        "alarm_event",
                        AlarmTables.EVENT,
                        row -> new Outcome.AlarmChanged(AlarmTables.change(row)),
                        after,
                        to));
        all.addAll(
                read(
                        "learning",
                        BaselineTables.LEARNING,
                        row -> new Outcome.LearningProgressed(BaselineTables.learning(row)),
                        after,
                        to));
        all.addAll(
                read(
                        "baseline",
                        BaselineTables.BASELINE,
                        row -> new Outcome.BaselineLearned(BaselineTables.baseline(db, row)),
                        after,
                        to));
        all.addAll(read("refusal", OutcomeWriter.REFUSAL, OutcomeReader::refusal, after, to));
        all.addAll(
                read(
                        "service",
                        OutcomeWriter.SERVICE,
                        row -> new Outcome.ServiceChanged(service(row)),
                        after,
                        to));
        all.sort(Said.ORDER);
        return all;
    }

    private List<Said> read(
            String table, String columns, Function<Row, Outcome> outcome, long after, long to) {
        String sql =
                "SELECT seq, nth, config_hash, "
                        + columns
                        + " FROM "
                        + table
                        + " WHERE machine = ? AND seq > ? AND seq <= ? ORDER BY seq, nth";
        return db.list(
                sql,
                row -> {
                    long seq = row.number();
                    int nth = (int) row.number();
                    String configHash = row.text();
                    return new Said(machine, seq, nth, outcome.apply(row), configHash);
                },
                machineId,
                after,
                to);
    }

    static ServiceChange service(Row row) {
        return new ServiceChange(row.number(), row.flag(), row.number(), row.text(), row.text());
    }

    private static Outcome refusal(Row row) {
        long atMicros = row.number();
        InstructionWords.Kind kind = row.word(InstructionWords.Kind.class);
        Instruction instruction = new InstructionWords(kind, row.text(), row.text()).at(atMicros);
        return new Outcome.InstructionRefused(instruction, row.text());
    }
}
