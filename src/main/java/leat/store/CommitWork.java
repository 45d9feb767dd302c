package leat.store;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.Refusal;
import leat.json.RecordJson;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.watch.Outcome;

/** Writes a batch in one transaction. Thread-confined. */
final class CommitWork {

    private static final String OLD_SNAPSHOTS =
            """
            DELETE FROM snapshot WHERE machine = ?1 AND seq NOT IN
                (SELECT seq FROM snapshot WHERE machine = ?1 ORDER BY seq DESC LIMIT 2)
            """;

    private static final String KEPT =
            "UPDATE machine SET samples = samples + ?, ticks = ticks + ?, idle_s = 0 WHERE id = ?";

    private static final String TAKEN =
            "UPDATE instruction SET taken_us = ?, taken_seq = ? WHERE number = ? AND taken_us IS NULL";

    private static final String REFUSED =
            "UPDATE instruction SET taken_us = ?, refused = ? WHERE number = ? AND taken_us IS NULL";

    private static final String FOLLOWED_NOT =
            "UPDATE instruction SET refused = ? WHERE machine = ? AND taken_seq = ?";

    private static final String TRIED =
            "UPDATE outbox SET attempts = attempts + 1, delivered_us = ? WHERE number = ?"
                    + " AND delivered_us IS NULL";

    private static final String GIVEN_UP =
            "UPDATE outbox SET given_up_us = ?, given_up_because = ? WHERE number = ?"
                    + " AND delivered_us IS NULL AND given_up_us IS NULL";

    private final Db db;

    /** Numbers of machines that are known to be committed. */
    private final Map<String, Long> machines = new HashMap<>();

    /** Number of the last message; one that waits has its number before it is stored. */
    private long lastMessage;

    /**
     * @param lastMessage the last number that was given to a message, if it is not stored
     */
    CommitWork(Db db, long lastMessage) {
        this.db = db;
        db.list("SELECT name, id FROM machine", row -> machines.put(row.text(), row.number()));
        this.lastMessage = Math.max(lastMessage, OutboxTable.lastNumber(db));
    }

    /** The last number that was given to a message, stored or not. */
    long lastMessage() {
        return lastMessage;
    }

    /** Whatever becomes of the commit: what it owes can be told. */
    void number(Batch batch) {
        batch.number(() -> ++lastMessage);
    }

    void commit(Batch batch) {
        Map<String, Long> ids = new HashMap<>(machines);
        db.inOneTransaction(() -> write(batch, ids));
        machines.putAll(ids);
    }

    private void write(Batch batch, Map<String, Long> ids) {
        inputs(batch, ids);
        for (Batch.Taken taken : batch.taken) {
            db.write(TAKEN)
                    .number(taken.atMicros())
                    .number(taken.seq())
                    .number(taken.number())
                    .now();
        }
        for (Said said : batch.said) {
            say(said, id(ids, said.machine()), batch);
        }
        if (batch.unfolds) {
            OutboxTable.unfold(db);
        }
        batch.owed.forEach(message -> OutboxTable.owe(db, message));
        batch.annunciator.ifPresent(
                state ->
                        db.write("INSERT OR REPLACE INTO annunciator (id, state) VALUES (1, ?)")
                                .bytes(state)
                                .now());
        for (Snapshot snapshot : batch.snapshots.values()) {
            keep(snapshot, id(ids, snapshot.machine()));
        }
        for (Batch.Refused refused : batch.refused) {
            db.write(REFUSED)
                    .number(refused.atMicros())
                    .text(RecordJson.write(Refusal.class, refused.reason()))
                    .number(refused.number())
                    .now();
        }
        batch.tried.forEach(this::tried);
        for (Batch.GivenUp givenUp : batch.givenUp) {
            db.write(GIVEN_UP)
                    .number(givenUp.atMicros())
                    .text(givenUp.reason())
                    .number(givenUp.number())
                    .now();
        }
    }

    private void say(Said said, long machine, Batch batch) {
        OutcomeTable.put(db, machine, said);
        if (said.outcome() instanceof Outcome.AlarmChanged changed) {
            AlarmChange change = changed.change();
            Long number = batch.alarmNumbers.get(change.alarmId());
            AlarmTable.stand(
                    db,
                    machine,
                    said.configHash(),
                    change,
                    number == null ? OptionalLong.empty() : OptionalLong.of(number));
        } else if (said.outcome() instanceof Outcome.InstructionRefused refused) {
            db.write(FOLLOWED_NOT)
                    .text(RecordJson.write(Refusal.class, refused.reason()))
                    .text(said.machine())
                    .number(said.seq())
                    .now();
        }
    }

    private void inputs(Batch batch, Map<String, Long> ids) {
        if (batch.fed.isEmpty()) {
            return;
        }
        InputTable table = new InputTable(db);
        Map<Long, Kept> kept = new HashMap<>();
        for (Batch.Fed fed : batch.fed) {
            long machine = id(ids, fed.machine());
            Input input = fed.input();
            table.queue(machine, fed.seq(), input);
            if (input instanceof Reading) {
                kept.merge(machine, new Kept(1, 0), Kept::and);
            } else if (input instanceof Tick) {
                kept.merge(machine, new Kept(0, 1), Kept::and);
            } else if (input instanceof Instruction instruction
                    && instruction.order() instanceof Order.Journal
                    && !isRefused(batch, fed)) {
                journal(machine, fed.seq(), instruction);
            }
        }
        table.flush();
        kept.forEach(
                (machine, more) ->
                        db.write(KEPT)
                                .number(more.samples())
                                .number(more.ticks())
                                .number(machine)
                                .now());
    }

    /** What the input table of a machine has grown by. */
    private record Kept(long samples, long ticks) {
        Kept and(Kept more) {
            return new Kept(samples + more.samples, ticks + more.ticks);
        }
    }

    /** What was asked in vain was not done to the machine; the refusal is an outcome. */
    private static boolean isRefused(Batch batch, Batch.Fed fed) {
        return batch.said.stream()
                .anyMatch(
                        said ->
                                said.seq() == fed.seq()
                                        && said.machine().equals(fed.machine())
                                        && said.outcome() instanceof Outcome.InstructionRefused);
    }

    private void journal(long machine, long seq, Instruction entry) {
        db.insert("journal", "machine, seq, at_us, by_whom, body")
                .number(machine)
                .number(seq)
                .number(entry.atMicros())
                .text(entry.by())
                .text(RecordJson.write(Order.class, entry.order()))
                .now();
    }

    private void keep(Snapshot snapshot, long machine) {
        db.write(
                        "INSERT OR REPLACE INTO snapshot (machine, seq, at_us, format, state)"
                                + " VALUES (?, ?, ?, ?, ?)")
                .number(machine)
                .number(snapshot.seq())
                .number(snapshot.atMicros())
                .number(snapshot.format())
                .bytes(snapshot.state())
                .now();
        db.write(OLD_SNAPSHOTS).number(machine).now();
    }

    private void tried(Batch.Tried tried) {
        Write mark = db.write(TRIED);
        if (tried.delivered()) {
            mark.number(tried.deliveredMicros());
        } else {
            mark.nothing();
        }
        mark.number(tried.number()).now();
    }

    private long id(Map<String, Long> ids, String machine) {
        return ids.computeIfAbsent(machine, this::enter);
    }

    private long enter(String machine) {
        db.insert("machine", "name").text(machine).now();
        return db.number("SELECT id FROM machine WHERE name = ?", machine);
    }
}
