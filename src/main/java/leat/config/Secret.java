package leat.config;

/** A secret value. Prints as {@code ***}, so that no log ever shows it. Immutable. */
public final class Secret {

    private final String value;

    public Secret(String value) {
        this.value = value;
    }

    /** The value in clear, for the one place that must send it. */
    public String reveal() {
        return value;
    }

    @Override
    public String toString() {
        return "***";
    }
}
