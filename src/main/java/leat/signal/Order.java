package leat.signal;

import static java.util.Objects.requireNonNull;

/**
 * What a person can ask of leat. Each order is declared here once: the stored row and the JSON
 * follow from its components. A new one is a record here, a deed in {@code alarm.AlarmOrders} or
 * {@code watch.Watch}, and the words that ask for it.
 */
public sealed interface Order {

    /** What concerns one alarm. */
    sealed interface AboutAlarm extends Order {

        /** The alarm's stable id. */
        String alarmId();
    }

    /** The alarm has been seen and somebody looks after it. */
    record Acknowledge(String alarmId) implements AboutAlarm {
        public Acknowledge {
            requireNonNull(alarmId, "alarmId");
        }
    }

    /** What had latched has been looked at and may be normal again. */
    record Reset(String alarmId) implements AboutAlarm {
        public Reset {
            requireNonNull(alarmId, "alarmId");
        }
    }

    /**
     * Nobody is to be called for this alarm for a while.
     *
     * @param alarmId the alarm's stable id
     * @param untilMicros when it comes back, microseconds UTC
     * @param why the reason; never blank
     */
    record Shelve(String alarmId, long untilMicros, String why) implements AboutAlarm {
        public Shelve {
            requireNonNull(alarmId, "alarmId");
            requireReason(why);
        }
    }

    /** A shelved alarm is to come back now. */
    record Unshelve(String alarmId) implements AboutAlarm {
        public Unshelve {
            requireNonNull(alarmId, "alarmId");
        }
    }

    /**
     * The alarm itself is taken out of service, until somebody puts it back.
     *
     * @param alarmId the alarm's stable id
     * @param why the reason; never blank
     */
    record Remove(String alarmId, String why) implements AboutAlarm {
        public Remove {
            requireNonNull(alarmId, "alarmId");
            requireReason(why);
        }
    }

    /** An alarm that was out of service is put back. */
    record Restore(String alarmId) implements AboutAlarm {
        public Restore {
            requireNonNull(alarmId, "alarmId");
        }
    }

    /**
     * Something was done to the machine.
     *
     * @param entry what kind of work it was
     * @param text free words, may be empty
     */
    record Journal(Entry entry, String text) implements Order {
        public Journal {
            requireNonNull(entry, "entry");
            requireNonNull(text, "text");
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
        SERVICE_OFF;

        /** The name used in tables and documents, such as {@code service-on}. */
        public String key() {
            return Keyword.of(this);
        }
    }

    private static void requireReason(String why) {
        if (why == null || why.isBlank()) {
            throw new IllegalArgumentException("holding an alarm back needs a reason");
        }
    }
}
