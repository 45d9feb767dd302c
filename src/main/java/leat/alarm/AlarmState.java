package leat.alarm;

import leat.signal.Keyword;

/** The states of IEC 62682 / ISA-18.2, with the letters of its figure. */
public enum AlarmState {
    /** A: the condition is clear and nothing waits for anybody. */
    NORMAL,
    /** B: active, nobody has acknowledged it. */
    UNACKNOWLEDGED,
    /** C: active, somebody looks after it. */
    ACKNOWLEDGED,
    /** D: returned to normal before anybody acknowledged it. */
    RETURNED_UNACKNOWLEDGED,
    /** E: the condition went, the alarm stays until it is acknowledged and reset. */
    LATCHED_UNACKNOWLEDGED,
    /** F: the same, acknowledged: it waits for its reset. */
    LATCHED_ACKNOWLEDGED,
    /** G: put aside by a person for a while. Its own state goes on underneath. */
    SHELVED,
    /** H: held back by leat while somebody works on the machine. Likewise. */
    SUPPRESSED,
    /** I: taken out of service by a person. Likewise. */
    OUT_OF_SERVICE;

    /** The name used in tables and messages, such as {@code returned-unacknowledged}. */
    public String key() {
        return Keyword.of(this);
    }

    /** True while the condition holds; of a held alarm only the state underneath can say. */
    public boolean isActive() {
        return this == UNACKNOWLEDGED || this == ACKNOWLEDGED;
    }

    public boolean needsAcknowledging() {
        return this == UNACKNOWLEDGED
                || this == RETURNED_UNACKNOWLEDGED
                || this == LATCHED_UNACKNOWLEDGED;
    }

    /** True for the states that hide another one: shelved, suppressed, out of service. */
    public boolean isHeld() {
        return this == SHELVED || this == SUPPRESSED || this == OUT_OF_SERVICE;
    }
}
