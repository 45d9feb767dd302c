package leat.store;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import leat.alarm.Refusal;
import leat.json.RecordJson;
import leat.signal.Instruction;
import leat.signal.Order;

/**
 * Where what a person asks of leat is left. A running daemon takes it up within a second; while the
 * daemon is down it waits. Each call is a short transaction of its own.
 *
 * <p>Thread-confined. Every method throws a {@link StoreException} for trouble that the field can
 * bring.
 */
public final class InstructionBox implements AutoCloseable {

    private final Db db;

    private InstructionBox(Db db) {
        this.db = db;
    }

    /** Opens the box of a store that a leat has run on. */
    public static InstructionBox open(Path dbFile) {
        StoreReader.requireStore(dbFile);
        Db db = Db.writingBeside(dbFile);
        try {
            Schema.current().require(db);
            return new InstructionBox(db);
        } catch (RuntimeException e) {
            db.close();
            throw e;
        }
    }

    /**
     * An alarm that something can be said about.
     *
     * @param machine name of its machine
     * @param id its stable id
     */
    public record Alarm(String machine, String id) {}

    /**
     * @param numberOrId the alarm's number or its id
     */
    public Optional<Alarm> alarm(String numberOrId) {
        return db.first(
                "SELECT m.name, a.id FROM alarm a JOIN machine m ON m.id = a.machine"
                        + " WHERE a.number = ("
                        + StoreReader.NUMBER_OF
                        + ")",
                row -> new Alarm(row.text(), row.text()),
                numberOrId,
                numberOrId);
    }

    /** The machines that the store knows, in the order of their first input. */
    public List<String> machines() {
        return db.list(StoreReader.MACHINES, ResultRow::text);
    }

    /**
     * Leaves an instruction. Whether there is such a machine, and whether it can be followed, is
     * for the daemon to say.
     *
     * @param instruction with its time: now, microseconds UTC
     * @return the number of the instruction
     */
    public long leave(String machine, Instruction instruction) {
        long[] number = {0};
        db.inOneTransaction(
                () -> {
                    db.insert("instruction", "machine, by_whom, body, left_us")
                            .text(machine)
                            .text(instruction.by())
                            .text(RecordJson.write(Order.class, instruction.order()))
                            .number(instruction.atMicros())
                            .now();
                    number[0] = db.number("SELECT max(number) FROM instruction");
                });
        return number[0];
    }

    /**
     * What has become of an instruction.
     *
     * @throws IllegalArgumentException for a number that this box never gave
     */
    public InstructionFate fate(long number) {
        return db.first(
                        "SELECT taken_us, refused FROM instruction WHERE number = ?",
                        InstructionBox::fate,
                        number)
                .orElseThrow(
                        () -> new IllegalArgumentException("there is no instruction " + number));
    }

    /** True when the last leat on this store came to an orderly end: nobody takes anything up. */
    public boolean hasLeatEnded() {
        return db.number(
                        "SELECT ended_us IS NOT NULL FROM run WHERE id = (SELECT max(id) FROM run)")
                == 1;
    }

    private static InstructionFate fate(ResultRow row) {
        boolean waits = row.maybeNumber().isEmpty();
        String reason = row.text();
        boolean refused = !row.isNull();
        if (waits) {
            return new InstructionFate(InstructionFate.State.WAITING, Optional.empty());
        }
        return refused
                ? new InstructionFate(
                        InstructionFate.State.REFUSED,
                        Optional.of(RecordJson.read(Refusal.class, reason)))
                : new InstructionFate(InstructionFate.State.TAKEN, Optional.empty());
    }

    @Override
    public void close() {
        db.close();
    }
}
