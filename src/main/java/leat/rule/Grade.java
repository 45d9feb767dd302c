package leat.rule;

/** How soon somebody must act. Declared from mild to grave. */
public enum Grade {
    /** Look at it at the next service. */
    ADVISORY,
    /** Plan it this shift. */
    WARNING,
    /** Stop the booster now. */
    CRITICAL;

    public boolean isAtLeast(Grade other) {
        return compareTo(other) >= 0;
    }
}
