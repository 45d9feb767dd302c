package leat.alarm;

import java.util.Locale;

/** The states of IEC 62682 / ISA-18.2 that leat uses so far. */
public enum AlarmState {
    /** A: the condition is clear and nothing waits for anybody. */
    NORMAL,
    /** B: active, nobody has acknowledged it. */
    UNACKNOWLEDGED,
    /** C: active, somebody looks after it. */
    ACKNOWLEDGED,
    /** D: returned to normal before anybody acknowledged it. */
    RETURNED_UNACKNOWLEDGED;

    /** The name used in tables and messages, such as {@code returned-unacknowledged}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** True while the condition holds. */
    public boolean isActive() {
        return this == UNACKNOWLEDGED || this == ACKNOWLEDGED;
    }

    public boolean needsAcknowledging() {
        return this == UNACKNOWLEDGED || this == RETURNED_UNACKNOWLEDGED;
    }
}
