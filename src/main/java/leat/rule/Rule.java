package leat.rule;

import java.util.Optional;

/** What leat judges. One alarm lives per rule and channel, and its grade can grow. */
public enum Rule {
    /** Boosted over inlet pressure while steady. */
    RATIO("ratio"),
    /** Boosted level too low while steady. */
    LEVEL_LOW("level-low"),
    /** Boosted level too high while steady. */
    LEVEL_HIGH("level-high"),
    /** The climb of a startup. */
    RISE("rise"),
    /** Pressure left on the boosted gauge with the water shut. */
    REST("rest"),
    /** Inlet pressure while running. */
    INLET("inlet"),
    /** Starts, runs and stops that differ from what is usual for the machine. */
    BASELINE("baseline"),
    /** Pressure lost over the filters while water is drawn. */
    FILTER_LOSS("filter-loss"),
    /** A channel says nothing, or breaks off again and again. */
    SIGNAL_MISSING("signal-missing"),
    /** A channel says that its value is no good: broken loop, out of range. */
    SIGNAL_BAD("signal-bad"),
    /** A reading stands still to the bit while the other moves. */
    SIGNAL_STUCK("signal-stuck"),
    /** The time that a sensor claims for its readings is not that of their arrival. */
    SIGNAL_CLOCK("signal-clock"),
    /** Inlet and boosted channel read each other's pressure. */
    SIGNAL_SWAPPED("signal-swapped");

    private final String key;

    Rule(String key) {
        this.key = key;
    }

    /** The name used in ids, topics and tables, such as {@code level-low}. */
    public String key() {
        return key;
    }

    /** True for a rule about a channel's own health, of which each channel has one. */
    public boolean isAboutSignal() {
        return switch (this) {
            case SIGNAL_MISSING, SIGNAL_BAD, SIGNAL_STUCK, SIGNAL_CLOCK, SIGNAL_SWAPPED -> true;
            case RATIO, LEVEL_LOW, LEVEL_HIGH, RISE, REST, INLET, BASELINE, FILTER_LOSS -> false;
        };
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
