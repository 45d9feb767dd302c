package leat.signal;

import static java.util.Objects.requireNonNull;

/**
 * What a person told leat. It reaches the watch as an input like any other, so a replay has it too.
 */
public sealed interface Instruction extends Input
        permits Instruction.Acknowledge, Instruction.Journal {

    /** Who said it; never empty. */
    String by();

    @Override
    default void to(Receiver receiver) {
        receiver.instruction(this);
    }

    /**
     * The alarm has been seen and somebody looks after it.
     *
     * @param atMicros when the watch took it up, microseconds UTC
     * @param by who acknowledged
     * @param alarmId the alarm's stable id
     */
    record Acknowledge(long atMicros, String by, String alarmId) implements Instruction {
        public Acknowledge {
            requireNonNull(alarmId, "alarmId");
            requireNotBlank(by);
        }
    }

    /**
     * Something was done to the machine.
     *
     * @param atMicros when the watch took it up, microseconds UTC
     * @param by who did it
     * @param entry what kind of work it was
     * @param text free words, may be empty
     */
    record Journal(long atMicros, String by, Entry entry, String text) implements Instruction {
        public Journal {
            requireNonNull(entry, "entry");
            requireNonNull(text, "text");
            requireNotBlank(by);
        }
    }

    /** Kinds of journal entries. */
    enum Entry {
        /**
         * The line was opened: the next starts are slow until the air has purged, and what is usual
         * for the machine is learned anew.
         */
        SERVICED,
        /** The machine is sound: what is usual for it is learned anew from its next starts. */
        LEARN,
        /** A remark that changes no judgement. */
        NOTE
    }

    private static void requireNotBlank(String by) {
        if (by == null || by.isBlank()) {
            throw new IllegalArgumentException("an instruction names who gave it");
        }
    }
}
