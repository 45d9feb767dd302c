package leat.signal;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;
import java.util.Optional;

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
     * Something was done to the machine, found out about it, or answered.
     *
     * @param entry what kind of entry it is
     * @param text free words, may be empty
     * @param found what turned out to be the matter, or of an {@link Entry#ANSWER} what was
     *     answered: a key of small letters and dashes such as {@code worn-booster}, whose meaning
     *     this room does not know. Empty where nothing is said; never of an answer
     */
    record Journal(Entry entry, String text, String found) implements Order {
        public Journal {
            requireNonNull(entry, "entry");
            requireNonNull(text, "text");
            if (!isKey(found) || entry == Entry.ANSWER && found.isEmpty()) {
                throw new IllegalArgumentException(entry + " with '" + found + "' found");
            }
        }

        /** Of what turned out to be the matter nothing is said. */
        public Journal(Entry entry, String text) {
            this(entry, text, "");
        }

        private static boolean isKey(String found) {
            return found.chars().allMatch(c -> c == '-' || c >= 'a' && c <= 'z');
        }
    }

    /** Kinds of journal entries. Their keys are part of stores and recordings: never rename one. */
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
        SERVICE_OFF,
        /** The booster's pump is another one; the line was opened for it. */
        PUMP_REPLACED,
        /** The coupling's gap was measured and set. */
        COUPLING_GAP,
        /** The regulator of the booster's pressure was turned: its level is another one. */
        REGULATOR_TURNED,
        /** The filters behind the booster are new; the line was opened for it. */
        FILTER_CHANGED,
        /** The strainer before the booster was cleaned; the line was opened for it. */
        STRAINER_CLEANED,
        /** Air was let out of the line. */
        AIR_PURGED,
        /** A pressure transducer is another one, or was adjusted. */
        TRANSDUCER_CHANGED,
        /** Somebody made a check and says what it showed. */
        ANSWER;

        /** The name used in tables and documents, such as {@code service-on}. */
        public String key() {
            return Keyword.of(this);
        }

        /** Whether what was seen of the machine before says nothing of how it is now. */
        public boolean beginsAnew() {
            return switch (this) {
                case NOTE, SERVICE_ON, ANSWER -> false;
                case SERVICED,
                        LEARN,
                        SERVICE_OFF,
                        PUMP_REPLACED,
                        COUPLING_GAP,
                        REGULATOR_TURNED,
                        FILTER_CHANGED,
                        STRAINER_CLEANED,
                        AIR_PURGED,
                        TRANSDUCER_CHANGED ->
                        true;
            };
        }

        public static Optional<Entry> byKey(String key) {
            return Arrays.stream(values()).filter(entry -> entry.key().equals(key)).findFirst();
        }
    }

    private static void requireReason(String why) {
        if (why == null || why.isBlank()) {
            throw new IllegalArgumentException("holding an alarm back needs a reason");
        }
    }
}
