package leat.rule;

/** How soon somebody must act. Declared from mild to grave. */
public enum Grade {
    /** Look at it at the next service. */
    ADVISORY("look at it at the next service"),
    /** Plan it this shift. */
    WARNING("plan it this shift"),
    /** Stop the booster now. */
    CRITICAL("stop the booster now");

    private final String meaning;

    Grade(String meaning) {
        this.meaning = meaning;
    }

    public String meaning() {
        return meaning;
    }

    public boolean isAtLeast(Grade other) {
        return compareTo(other) >= 0;
    }
}
