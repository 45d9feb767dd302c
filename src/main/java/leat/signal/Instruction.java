package leat.signal;

import static java.util.Objects.requireNonNull;

/**
 * What a person told leat. It reaches the watch as an input like any other, so a replay has it too.
 */
public sealed interface Instruction extends Input
        permits Instruction.AboutAlarm, Instruction.Journal {

    /** Who said it; never empty. */
    String by();

    @Override
    default void to(Receiver receiver) {
        receiver.instruction(this);
    }

    /** What concerns one alarm. */
    sealed interface AboutAlarm extends Instruction
            permits Acknowledge, Reset, Shelve, Unshelve, Remove, Restore {

        /** The alarm's stable id. */
        String alarmId();
    }

    /**
     * The alarm has been seen and somebody looks after it.
     *
     * @param atMicros when the watch took it up, microseconds UTC
     * @param by who acknowledged
     * @param alarmId the alarm's stable id
     */
    record Acknowledge(long atMicros, String by, String alarmId) implements AboutAlarm {
        public Acknowledge {
            requireNonNull(alarmId, "alarmId");
            requireNotBlank(by);
        }
    }

    /**
     * What had latched has been looked at and may be normal again.
     *
     * @param atMicros when the watch took it up, microseconds UTC
     * @param by who resets
     * @param alarmId the alarm's stable id
     */
    record Reset(long atMicros, String by, String alarmId) implements AboutAlarm {
        public Reset {
            requireNonNull(alarmId, "alarmId");
            requireNotBlank(by);
        }
    }

    /**
     * Nobody is to be called for this alarm for a while.
     *
     * @param atMicros when the watch took it up, microseconds UTC
     * @param by who shelves it
     * @param alarmId the alarm's stable id
     * @param untilMicros when it comes back, microseconds UTC
     * @param why the reason; never blank
     */
    record Shelve(long atMicros, String by, String alarmId, long untilMicros, String why)
            implements AboutAlarm {
        public Shelve {
            requireNonNull(alarmId, "alarmId");
            requireNotBlank(by);
            requireReason(why);
        }
    }

    /**
     * A shelved alarm is to come back now.
     *
     * @param atMicros when the watch took it up, microseconds UTC
     * @param by who ends the shelf
     * @param alarmId the alarm's stable id
     */
    record Unshelve(long atMicros, String by, String alarmId) implements AboutAlarm {
        public Unshelve {
            requireNonNull(alarmId, "alarmId");
            requireNotBlank(by);
        }
    }

    /**
     * The alarm itself is taken out of service, until somebody puts it back.
     *
     * @param atMicros when the watch took it up, microseconds UTC
     * @param by who takes it out
     * @param alarmId the alarm's stable id
     * @param why the reason; never blank
     */
    record Remove(long atMicros, String by, String alarmId, String why) implements AboutAlarm {
        public Remove {
            requireNonNull(alarmId, "alarmId");
            requireNotBlank(by);
            requireReason(why);
        }
    }

    /**
     * An alarm that was out of service is put back.
     *
     * @param atMicros when the watch took it up, microseconds UTC
     * @param by who puts it back
     * @param alarmId the alarm's stable id
     */
    record Restore(long atMicros, String by, String alarmId) implements AboutAlarm {
        public Restore {
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
        NOTE,
        /** Somebody works on the machine from now on: its pressures are no news. */
        SERVICE_ON,
        /** The work is done; the line counts as opened, as with {@link #SERVICED}. */
        SERVICE_OFF
    }

    private static void requireNotBlank(String by) {
        if (by == null || by.isBlank()) {
            throw new IllegalArgumentException("an instruction names who gave it");
        }
    }

    private static void requireReason(String why) {
        if (why == null || why.isBlank()) {
            throw new IllegalArgumentException("holding an alarm back needs a reason");
        }
    }
}
