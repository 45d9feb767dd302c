package leat.store;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Function;
import leat.signal.Instruction;

/**
 * Where the command line leaves what a person asks of leat. A running daemon takes it up within a
 * second; while the daemon is down it waits. Each call is a short transaction of its own.
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
        StoreReader.requireThere(dbFile);
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
     * Leaves an acknowledgement.
     *
     * @param numberOrId the alarm's number or its id
     * @param by who has seen it; not blank
     * @param atMicros now, microseconds UTC
     * @return the number of the instruction; empty when there is no such alarm
     */
    public OptionalLong acknowledge(String numberOrId, String by, long atMicros) {
        return about(numberOrId, id -> new Instruction.Acknowledge(atMicros, by, id));
    }

    /**
     * Leaves an instruction about an alarm.
     *
     * @param numberOrId the alarm's number or its id
     * @param instruction made from the alarm's id, with its time: now
     * @return the number of the instruction; empty when there is no such alarm
     */
    public OptionalLong about(
            String numberOrId, Function<String, Instruction.AboutAlarm> instruction) {
        Optional<Target> target =
                db.first(
                        "SELECT m.name, a.id FROM alarm a JOIN machine m ON m.id = a.machine"
                                + " WHERE a.number = ("
                                + StoreReader.NUMBER_OF
                                + ")",
                        row -> new Target(row.text(), row.text()),
                        numberOrId,
                        numberOrId);
        if (target.isEmpty()) {
            return OptionalLong.empty();
        }
        Target alarm = target.get();
        return OptionalLong.of(leave(alarm.machine(), instruction.apply(alarm.alarmId())));
    }

    private record Target(String machine, String alarmId) {}

    /**
     * Leaves a journal entry. Whether there is such a machine is for the daemon to say.
     *
     * @param entry with its time: now, microseconds UTC
     * @return the number of the instruction
     */
    public long journal(String machine, Instruction.Journal entry) {
        return leave(machine, entry);
    }

    private long leave(String machine, Instruction instruction) {
        InstructionWords words = InstructionWords.of(instruction);
        long[] number = {0};
        db.inOneTransaction(
                () -> {
                    db.insert("instruction", "machine, kind, by_whom, detail, left_us")
                            .text(machine)
                            .word(words.kind())
                            .text(words.by())
                            .text(words.detail())
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

    private static InstructionFate fate(Row row) {
        boolean waits = row.maybeNumber().isEmpty();
        String reason = row.text();
        boolean refused = !row.isNull();
        if (waits) {
            return new InstructionFate(InstructionFate.State.WAITING, "");
        }
        return refused
                ? new InstructionFate(InstructionFate.State.REFUSED, reason)
                : new InstructionFate(InstructionFate.State.TAKEN, "");
    }

    @Override
    public void close() {
        db.close();
    }
}
