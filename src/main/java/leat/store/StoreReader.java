package leat.store;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;
import leat.diagnose.Diagnosis;
import leat.json.RecordJson;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
import leat.rule.Learning;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.watch.Outcome;
import leat.words.FaultWords;

/**
 * Reads a store over a connection of its own that cannot write. It works while the daemon runs and
 * while it is down. Every answer is complete before it is handed out, so that no reader holds up
 * the daemon's write-ahead log.
 *
 * <p>Thread-confined; any number can be open. Every method throws a {@link StoreException} for
 * trouble that the field can bring. A machine that the store does not know has simply nothing.
 */
public final class StoreReader implements AutoCloseable {

    private static final String ALARM =
            "SELECT a.number, m.name, e.seq, e.config_hash, e.body"
                    + " FROM alarm a JOIN machine m ON m.id = a.machine"
                    + " JOIN alarm_event e ON e.alarm_id = a.id";

    /** From those that stand to their last change, not through all changes that ever were. */
    private static final String STANDING =
            "SELECT a.number, m.name, e.seq, e.config_hash, e.body"
                    + " FROM alarm a INDEXED BY alarm_standing CROSS JOIN machine m"
                    + " CROSS JOIN alarm_event e"
                    + " WHERE a.state <> 'normal' AND m.id = a.machine AND e.alarm_id = a.id"
                    + " AND e.revision = a.revision ORDER BY a.number";

    static final String MACHINES = "SELECT name FROM machine ORDER BY id";

    private static final String LATEST = " AND e.revision = a.revision";

    /** The baseline in force after an input and at a time. */
    private static final String BASELINE =
            """
            SELECT b.body FROM outcome b
            WHERE b.kind = 'baseline-learned' AND b.machine = ?1 AND b.seq <= ?2 AND b.at_us <= ?3
                AND NOT EXISTS (
                    SELECT 1 FROM outcome l WHERE l.kind = 'learning-progressed'
                    AND l.machine = ?1 AND l.seq > b.seq AND l.seq <= ?2 AND l.at_us <= ?3
                    AND l.body ->> '$.learning.good' = 0)
            ORDER BY b.seq DESC LIMIT 1
            """;

    private final Db db;
    private final StoredInputs inputs;

    private StoreReader(Db db) {
        this.db = db;
        inputs = new StoredInputs(db);
    }

    /** Opens a store that a leat has run on. */
    public static StoreReader open(Path dbFile) {
        requireStore(dbFile);
        Db db = isAtRest(dbFile) ? Db.glancing(dbFile) : Db.reading(dbFile);
        try {
            Schema.current().require(db);
            return new StoreReader(db);
        } catch (RuntimeException e) {
            db.close();
            throw e;
        }
    }

    /**
     * Without a log the file alone says all. Somebody who may not write beside it can read it only
     * so: SQLite wants to make log and index.
     */
    private static boolean isAtRest(Path dbFile) {
        Path log = dbFile.resolveSibling(dbFile.getFileName() + "-wal");
        return !Files.exists(log) && !Files.isWritable(dbFile.toAbsolutePath().getParent());
    }

    static void requireStore(Path dbFile) {
        if (!Files.exists(dbFile) && !Files.notExists(dbFile)) {
            throw new StoreException.Unavailable(dbFile, FaultWords.english("store.no-look"), null);
        }
        if (!Files.exists(dbFile)) {
            throw new StoreException.Unavailable(dbFile, FaultWords.english("store.none"), null);
        }
        Schema.current().glance(dbFile);
    }

    /** The machines that the store knows, in the order of their first input. */
    public List<String> machines() {
        return db.list(MACHINES, ResultRow::text);
    }

    /** The last number that was given to an alarm; 0 before the first. */
    public long lastAlarmNumber() {
        return db.number("SELECT seq FROM sqlite_sequence WHERE name = 'alarm'");
    }

    /** The numbers of the alarms that stand, by their ids. */
    public Map<String, Long> standingNumbers() {
        return numbers("SELECT id, number FROM alarm WHERE state <> 'normal' ORDER BY number");
    }

    /** The numbers of the alarms that went last, by their ids, oldest first. */
    public Map<String, Long> goneNumbers(int most) {
        return numbers(
                """
                SELECT id, number FROM
                    (SELECT id, number, state FROM alarm ORDER BY number DESC LIMIT ?)
                WHERE state = 'normal' ORDER BY number
                """,
                (long) most);
    }

    private Map<String, Long> numbers(String select, Object... values) {
        Map<String, Long> numbers = new LinkedHashMap<>();
        db.list(select, row -> numbers.put(row.text(), row.number()), values);
        return numbers;
    }

    /** At most two, newest first: where the first cannot be taken up, the second may. */
    public List<Snapshot> snapshots(String machine) {
        return db.list(
                "SELECT seq, at_us, format, state FROM snapshot WHERE machine = ? ORDER BY seq DESC",
                row ->
                        new Snapshot(
                                machine,
                                row.number(),
                                row.number(),
                                (int) row.number(),
                                row.bytes()),
                id(machine));
    }

    /**
     * The last input that the machine was fed, whether it is still stored or only what was said to
     * it; 0 when there was none.
     */
    public long lastSeq(String machine) {
        return db.number(
                """
                SELECT max(seq) FROM (
                    SELECT max(seq) AS seq FROM input WHERE machine = ?1
                    UNION ALL SELECT sealed_seq FROM machine WHERE id = ?1
                    UNION ALL SELECT max(seq) FROM snapshot WHERE machine = ?1
                    UNION ALL SELECT max(seq) FROM outcome WHERE machine = ?1
                    UNION ALL SELECT max(seq) FROM journal WHERE machine = ?1)
                """,
                id(machine));
    }

    /**
     * The first input at or after a time. Where the clock was set back and a time was passed twice,
     * the first passing counts.
     *
     * @param micros event time, microseconds UTC
     */
    public OptionalLong firstSeqAt(String machine, long micros) {
        return inputs.firstSeqAt(id(machine), micros);
    }

    /**
     * Hands out the inputs after {@code afterSeq} up to and with {@code toSeq}, in the order in
     * which they were fed. Memory stays bounded, and the visitor may take its time.
     */
    public void inputs(String machine, long afterSeq, long toSeq, InputVisitor visitor) {
        inputs.read(id(machine), afterSeq, toSeq, visitor);
    }

    /**
     * Hands out what was said to the inputs after {@code afterSeq} up to and with {@code toSeq}.
     */
    public void outcomes(String machine, long afterSeq, long toSeq, Consumer<Said> visitor) {
        long id = id(machine);
        List<Said> slice = OutcomeTable.next(db, machine, id, afterSeq, Integer.MAX_VALUE, toSeq);
        while (!slice.isEmpty()) {
            slice.forEach(visitor);
            Said last = slice.get(slice.size() - 1);
            slice = OutcomeTable.next(db, machine, id, last.seq(), last.nth(), toSeq);
        }
    }

    /** Likewise, of one kind of outcome. */
    public void outcomes(
            Class<? extends Outcome> kind,
            String machine,
            long afterSeq,
            long toSeq,
            Consumer<Said> visitor) {
        OutcomeTable.ofKind(db, kind, machine, id(machine), afterSeq, toSeq).forEach(visitor);
    }

    /**
     * The newest outcomes of one kind, newest first.
     *
     * @param atMost how many
     */
    public List<Said> newest(Class<? extends Outcome> kind, String machine, int atMost) {
        return OutcomeTable.newest(db, kind, machine, id(machine), atMost);
    }

    /** How far the record of each machine has come, whatever it holds. */
    public List<MachineHead> heads() {
        return db.list(MachineHead.ALL, MachineHead::read);
    }

    /**
     * The last that a channel was heard of: a reading, its loss or its return.
     *
     * @param afterSeq looked for only after this input: a channel that is silent costs as much time
     *     as there are inputs to look through
     * @param toSeq up to and with this one
     */
    public Optional<Input> latest(String machine, Channel channel, long afterSeq, long toSeq) {
        return inputs.latest(id(machine), channel, afterSeq, toSeq);
    }

    /** The alarms that are not back to normal, oldest first. */
    public List<StoredAlarm> standingAlarms() {
        return db.list(STANDING, StoreReader::alarm);
    }

    /** The newest alarms, standing or not, newest first. */
    public List<StoredAlarm> alarms(int atMost) {
        return db.list(
                ALARM + " WHERE TRUE" + LATEST + " ORDER BY a.number DESC LIMIT ?",
                StoreReader::alarm,
                (long) atMost);
    }

    /**
     * @param numberOrId the number that people are shown, or the stable id
     */
    public Optional<StoredAlarm> alarm(String numberOrId) {
        return db.first(
                ALARM + " WHERE a.number = (" + NUMBER_OF + ")" + LATEST,
                StoreReader::alarm,
                numberOrId,
                numberOrId);
    }

    /** Number of the alarm that is called by this id or else by this number. */
    static final String NUMBER_OF =
            "SELECT number FROM alarm WHERE id = ? OR CAST(number AS TEXT) = ? LIMIT 1";

    /** The likeliest causes of an alarm, as they were told last since it was last raised. */
    public Optional<Diagnosis> causesOf(String alarmId) {
        return db.first(
                        """
                        SELECT e.body FROM alarm_event e
                        WHERE e.alarm_id = ?1 AND (e.event = 'raised'
                            OR json_type(e.body, '$.why') NOT IN ('null'))
                        ORDER BY e.revision DESC LIMIT 1
                        """,
                        row -> OutcomeTable.outcome(Outcome.AlarmChanged.class, row),
                        alarmId)
                .flatMap(Outcome.AlarmChanged::why);
    }

    /** All changes of one alarm, oldest first. */
    public List<StoredAlarm> alarmHistory(String alarmId) {
        return db.list(ALARM + " WHERE a.id = ? ORDER BY e.revision", StoreReader::alarm, alarmId);
    }

    /** Every change of every alarm from a time on, oldest first. */
    public List<StoredAlarm> alarmChangesSince(long sinceMicros) {
        return db.list(
                ALARM + " WHERE e.at_us >= ? ORDER BY e.at_us, e.machine, e.seq, e.nth",
                StoreReader::alarm,
                sinceMicros);
    }

    /** When leat first ran on this store, microseconds UTC; empty when it never did. */
    public OptionalLong firstRunMicros() {
        return db.first("SELECT min(started_us) FROM run", ResultRow::maybeNumber)
                .orElse(OptionalLong.empty());
    }

    /** The machines that somebody works on, by name. */
    public List<MachineInService> inService() {
        return db.list(
                """
                SELECT m.name, o.body FROM outcome o JOIN machine m ON m.id = o.machine
                WHERE o.kind = 'service-changed' AND o.body ->> '$.change.on'
                    AND o.seq = (SELECT max(seq) FROM outcome
                                 WHERE kind = 'service-changed' AND machine = o.machine)
                ORDER BY m.name
                """,
                row ->
                        new MachineInService(
                                row.text(),
                                OutcomeTable.outcome(Outcome.ServiceChanged.class, row).change()));
    }

    /** How many startups of a machine began from one time on and before another. */
    public long startupsBetween(String machine, long fromMicros, long toMicros) {
        return db.number(StartupSearch.COUNT, machine, fromMicros, toMicros);
    }

    /** In the order that the query asks for. */
    public List<StoredStartup> startups(StartupQuery query) {
        return db.list(
                StartupSearch.sql(query), StoreReader::startup, StartupSearch.arguments(query));
    }

    /**
     * @param number as {@link StoredStartup#number} counts
     */
    public Optional<StoredStartup> startup(String machine, long number) {
        return db.first(StartupSearch.BY_NUMBER, StoreReader::startup, machine, number - 1);
    }

    /** The one that was measured last. */
    public Optional<StoredStartup> latestStartup(String machine) {
        return db.first(StartupSearch.LATEST, StoreReader::startup, machine);
    }

    /**
     * The startup that began at this very time, as {@link Baseline#starts} names it; the last one
     * where the clock was set back and two did.
     */
    public Optional<StoredStartup> startupAt(String machine, long startedMicros) {
        return db.first(StartupSearch.BY_TIME, StoreReader::startup, machine, startedMicros);
    }

    /** What was usual for a machine at a time; empty while it was learned. */
    public Optional<Baseline> baseline(String machine, long atMicros) {
        return baseline(id(machine), Long.MAX_VALUE, atMicros);
    }

    /** What was usual for a machine when it had been fed this input. */
    public Optional<Baseline> baselineAfter(String machine, long seq) {
        return baseline(id(machine), seq, Long.MAX_VALUE);
    }

    private Optional<Baseline> baseline(long machine, long seq, long atMicros) {
        return db.first(
                BASELINE,
                row -> OutcomeTable.outcome(Outcome.BaselineLearned.class, row).baseline(),
                machine,
                seq,
                atMicros);
    }

    /**
     * How far learning had come last when a machine had been fed this input; empty when no good
     * start was known.
     */
    public Optional<Learning> learningAfter(String machine, long seq) {
        return db.first(
                """
                SELECT body FROM outcome WHERE kind = 'learning-progressed' AND machine = ?
                    AND seq <= ? ORDER BY seq DESC, nth DESC LIMIT 1
                """,
                row -> OutcomeTable.outcome(Outcome.LearningProgressed.class, row).learning(),
                id(machine),
                seq);
    }

    /**
     * Newest first.
     *
     * @param machine name of one machine, or empty for all
     */
    public List<JournalLine> journal(Optional<String> machine, int atMost) {
        return db.list(
                """
                SELECT m.name, j.seq, j.at_us, j.by_whom, j.body
                FROM journal j JOIN machine m ON m.id = j.machine
                WHERE (?1 OR m.name = ?2)
                ORDER BY iif(?1, j.at_us, 0) DESC, j.seq DESC LIMIT ?3
                """,
                row ->
                        new JournalLine(
                                row.text(),
                                row.number(),
                                row.number(),
                                row.text(),
                                (Order.Journal) RecordJson.read(Order.class, row.text())),
                machine.isEmpty() ? 1L : 0L,
                machine.orElse(""),
                (long) atMost);
    }

    /** Instructions that nobody has taken up, in the order in which they were left. */
    public List<WaitingInstruction> waiting() {
        return db.list(
                """
                SELECT number, machine, left_us, by_whom, body FROM instruction
                WHERE taken_us IS NULL ORDER BY number
                """,
                row ->
                        new WaitingInstruction(
                                row.number(),
                                row.text(),
                                new Instruction(
                                        row.number(),
                                        row.text(),
                                        RecordJson.read(Order.class, row.text()))));
    }

    /**
     * Messages of a route that wait for delivery, oldest first.
     *
     * @param afterNumber only those with a higher number; 0 for all
     */
    public List<Owed> due(String route, long afterNumber, int atMost) {
        return OutboxTable.due(db, route, afterNumber, atMost);
    }

    /**
     * Of these only the CRITICAL ones, each with what waits before it of the same alarm.
     *
     * @param afterNumber only those with a higher number; 0 for all
     * @param critical alarms of which something CRITICAL waits elsewhere, after all of these
     */
    public List<Owed> dueInQuietHours(
            String route, long afterNumber, int atMost, Set<String> critical) {
        return OutboxTable.dueInQuietHours(db, route, afterNumber, atMost, critical);
    }

    /** The state of the annunciator at the last commit that changed it. */
    public Optional<byte[]> annunciator() {
        return db.first("SELECT state FROM annunciator", ResultRow::bytes);
    }

    /** Names of the routes to which anything is owed that has not reached them. */
    public List<String> routesOwed() {
        return OutboxTable.routesOwed(db);
    }

    /**
     * What is owed to a route and has not reached it, oldest first: what is due, and what is folded
     * while no message stands for it.
     */
    public List<Owed> owed(String route, int atMost) {
        return OutboxTable.owed(db, route, atMost);
    }

    /** Newest first. */
    public List<Run> runs(int atMost) {
        return db.list(
                "SELECT id, started_us, ended_us, version, config_hash FROM run"
                        + " ORDER BY id DESC LIMIT ?",
                row ->
                        new Run(
                                row.number(),
                                row.number(),
                                row.maybeNumber(),
                                row.text(),
                                row.text()),
                (long) atMost);
    }

    /** The text of the configuration with this hash. */
    public Optional<String> configText(String hash) {
        return db.first("SELECT text FROM config WHERE hash = ?", ResultRow::text, hash);
    }

    /** What there is of each machine's readings, in the order of {@link #machines}. */
    public List<HeldReadings> held() {
        return db.list(HeldReadings.ALL, HeldReadings::read);
    }

    /** Bytes within the file that nothing uses at present. */
    public long freeBytes() {
        return db.number("PRAGMA freelist_count") * db.number("PRAGMA page_size");
    }

    /**
     * Writes all that the store holds at this moment into a new file, which is proved before it has
     * its name. leat may run meanwhile; its write-ahead log grows until this is done.
     *
     * @param to where there is no file yet
     */
    public void copyTo(Path to) {
        Copy.make(db, to);
    }

    public StoreSummary summary() {
        return new StoreSummary(
                db.number("SELECT sum(samples) FROM machine"),
                db.number("SELECT count(*) FROM outcome WHERE kind = 'startup-measured'"),
                db.number("SELECT count(*) FROM alarm"),
                db.number("SELECT count(*) FROM alarm WHERE state <> 'normal'"),
                db.number(
                        "SELECT count(*) FROM outbox WHERE delivered_us IS NULL"
                                + " AND given_up_us IS NULL AND folded_into IS NULL"),
                db.file().toFile().length() + db.wal().toFile().length());
    }

    private static StoredAlarm alarm(ResultRow row) {
        long number = row.number();
        String machine = row.text();
        long seq = row.number();
        String configHash = row.text();
        Outcome.AlarmChanged said = OutcomeTable.outcome(Outcome.AlarmChanged.class, row);
        return new StoredAlarm(number, machine, seq, said.change(), configHash);
    }

    private static StoredStartup startup(ResultRow row) {
        String machine = row.text();
        long number = row.number();
        long seq = row.number();
        String configHash = row.text();
        Outcome.StartupMeasured said = OutcomeTable.outcome(Outcome.StartupMeasured.class, row);
        Optional<JudgedRun> run =
                Optional.of(row.text())
                        .filter(body -> !body.isEmpty())
                        .map(body -> RecordJson.read(Outcome.RunJudged.class, body).judged());
        boolean lasting = row.number() != 0 && run.isEmpty();
        return new StoredStartup(
                machine, number, seq, said.startup(), said.verdict(), configHash, run, lasting);
    }

    private long id(String machine) {
        return db.number("SELECT id FROM machine WHERE name = ?", machine);
    }

    @Override
    public void close() {
        db.close();
    }
}
