package leat.rule;

import java.util.Optional;

/** What leat judges. One alarm lives per rule and channel, and its grade can grow. */
public enum Rule {
    /** Boosted over inlet pressure while steady. */
    RATIO("ratio", "weak boost"),
    /** Boosted level too low while steady. */
    LEVEL_LOW("level-low", "boosted pressure low"),
    /** Boosted level too high while steady. */
    LEVEL_HIGH("level-high", "boosted pressure high"),
    /** The climb of a startup. */
    RISE("rise", "slow rise"),
    /** Pressure left on the boosted gauge with the water shut. */
    REST("rest", "pressure at rest"),
    /** Inlet pressure while running. */
    INLET("inlet", "inlet pressure low"),
    /** Startups that differ from what is usual for the machine. */
    BASELINE("baseline", "changed against its own baseline"),
    /** A channel says nothing. */
    SIGNAL_MISSING("signal-missing", "channel silent"),
    /** A channel says that its value is no good: broken loop, out of range. */
    SIGNAL_BAD("signal-bad", "channel bad"),
    /** A reading stands still to the bit while the other moves. */
    SIGNAL_STUCK("signal-stuck", "channel stuck");

    private final String key;
    private final String title;

    Rule(String key, String title) {
        this.key = key;
        this.title = title;
    }

    /** The name used in ids, topics and tables, such as {@code level-low}. */
    public String key() {
        return key;
    }

    /** A few plain words for a person: what a finding of this grade means. */
    public String title(Grade grade) {
        return switch (this) {
            case RATIO -> grade == Grade.CRITICAL ? "the booster does not boost" : title;
            case RISE -> grade == Grade.CRITICAL ? "the pressure did not rise" : title;
            case REST -> grade == Grade.ADVISORY ? title : "the shut-off valve leaks through";
            case INLET -> grade == Grade.CRITICAL ? "booster starved, it may run dry" : title;
            case LEVEL_LOW, LEVEL_HIGH, BASELINE, SIGNAL_MISSING, SIGNAL_BAD, SIGNAL_STUCK -> title;
        };
    }

    /** True for a rule about a channel's own health, of which each channel has one. */
    public boolean isAboutSignal() {
        return this == SIGNAL_MISSING || this == SIGNAL_BAD || this == SIGNAL_STUCK;
    }

    public static Optional<Rule> byKey(String key) {
        for (Rule rule : values()) {
            if (rule.key.equals(key)) {
                return Optional.of(rule);
            }
        }
        return Optional.empty();
    }
}
