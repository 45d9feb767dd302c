package leat.diagnose;

import java.util.Optional;
import leat.signal.Keyword;

/**
 * What a person can answer to a {@link Check}. Each word is of one check alone, so that it need not
 * be named with it. Keys are part of the journal: never rename one.
 */
public enum Answer {
    RECOVERS,
    STAYS_LOW,
    /** At once and the way of the arrow. */
    SHAFT_TURNS,
    /** It stands, or turns the other way. */
    SHAFT_WRONG,
    SUPPLY_OPEN,
    /** Shut or half shut. */
    SUPPLY_NOT_OPEN,
    HOUSE_GOOD,
    HOUSE_LOW,
    GAUGES_AGREE,
    GAUGES_DIFFER,
    FALLS_TO_ZERO,
    STAYS_UP,
    COMES_BACK,
    STAYS_DOWN,
    READS_ZERO,
    READS_OFF,
    WATER_FOUND,
    ALL_DRY,
    AIR_CAME,
    NO_AIR,
    STRAINER_DIRTY,
    STRAINER_CLEAN,
    COUPLING_HELD,
    COUPLING_SLIPPED,
    FULLY_OPEN,
    NOT_FULLY_OPEN,
    OPENS_AT_ONCE,
    OPENS_LATE,
    DIAL_AGREES,
    DIAL_DIFFERS,
    FOLLOWS_SETTING,
    DOES_NOT_FOLLOW,
    FILTERS_LOADED,
    FILTERS_FREE,
    WIRING_SOUND,
    WIRING_FAULT,
    SETTINGS_MATCH,
    SETTINGS_DIFFER,
    BYPASS_PASSES,
    BYPASS_QUIET,
    SOUNDS_LIKE_GRAVEL,
    SOUNDS_SMOOTH,
    SUCTION_AGREES,
    SUCTION_LOWER,
    WATER_RUNS,
    NO_WATER,
    WEAK_THERE_TOO,
    ONLY_HERE,
    DRAINS_TO_ZERO,
    READS_ON;

    /** Such as {@code stays-low}. */
    public String key() {
        return Keyword.of(this);
    }

    public static Optional<Answer> byKey(String key) {
        for (Answer answer : values()) {
            if (answer.key().equals(key)) {
                return Optional.of(answer);
            }
        }
        return Optional.empty();
    }
}
