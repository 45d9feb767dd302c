package leat.alarm;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.signal.Keyword;

/** Why what somebody asked for cannot be done. Immutable. */
public sealed interface Refusal {

    /** There is no such machine on the site. */
    record NoSuchMachine(String machine) implements Refusal {
        public NoSuchMachine {
            requireNonNull(machine, "machine");
        }
    }

    /** The alarm is over, or there was none. */
    record NoSuchAlarm(String alarmId) implements Refusal {
        public NoSuchAlarm {
            requireNonNull(alarmId, "alarmId");
        }
    }

    /**
     * Nobody may shelve an alarm for so long.
     *
     * @param askedMicros the time that was asked for
     * @param longestMicros the longest that is allowed
     */
    record ShelfTooLong(long askedMicros, long longestMicros) implements Refusal {}

    /**
     * The alarm, or the machine, is in no state for it.
     *
     * @param obstacle what is in the way
     * @param shown the state of the alarm as people are shown it; empty for one of the machine
     */
    record NotNow(Obstacle obstacle, Optional<AlarmState> shown) implements Refusal {
        public NotNow {
            requireNonNull(obstacle, "obstacle");
            requireNonNull(shown, "shown");
        }
    }

    /**
     * A refusal by a leat that knew only words.
     *
     * @param words as they were told then
     */
    record AsTold(String words) implements Refusal {
        public AsTold {
            requireNonNull(words, "words");
        }
    }

    /** What can be in the way. */
    enum Obstacle {
        /** Nobody is called for a held alarm, so nobody can answer. */
        NOBODY_CALLED,
        NOTHING_TO_ACKNOWLEDGE,
        /** The hold has to end before anybody can reset it. */
        END_HOLD_FIRST,
        ACKNOWLEDGE_FIRST,
        CONDITION_HOLDS,
        NOT_LATCHED,
        /** The time for which it was to be shelved is over. */
        SHELF_OVER,
        NOTHING_TO_SHELVE,
        ALREADY_OUT_OF_SERVICE,
        NOT_SHELVED,
        NOT_OUT_OF_SERVICE,
        /** Nobody works on the machine. */
        NOT_IN_SERVICE;

        /** Its name among the phrases, such as {@code not-latched}. */
        public String key() {
            return Keyword.of(this);
        }
    }
}
