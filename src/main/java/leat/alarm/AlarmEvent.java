package leat.alarm;

import java.util.Locale;

/** What can happen to an alarm. */
public enum AlarmEvent {
    /** The condition came. */
    RAISED,
    /** The condition holds and its grade grew: it is annunciated again. */
    WORSENED,
    /** The condition holds and its grade shrank. */
    EASED,
    /** The condition went. */
    RETURNED,
    /** Somebody acknowledged it. */
    ACKNOWLEDGED,
    /** The condition went, and the alarm stays until it is acknowledged and reset. */
    LATCHED,
    /** Somebody reset what had latched. */
    RESET,
    /** A person put it aside for a while. */
    SHELVED,
    /** The shelf ended: by a person, by its time, or because the alarm got worse. */
    UNSHELVED,
    /** Somebody works on the machine: the alarm is held back. */
    SUPPRESSED,
    /** The work on the machine has ended. */
    RELEASED,
    /** A person took the alarm out of service. */
    REMOVED,
    /** A person put the alarm back into service. */
    RESTORED,
    /**
     * The condition came once more within a short time: from now on it is one alarm that counts.
     */
    CHATTERING,
    /** The condition of a chattering alarm came again. Recorded, told to nobody. */
    REPEATED,
    /** A chattering alarm no longer comes and goes: it stands. Recorded, told to nobody. */
    SETTLED;

    /** The name used in tables and messages, such as {@code raised}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
