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
    ACKNOWLEDGED;

    /** The name used in tables and messages, such as {@code raised}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
