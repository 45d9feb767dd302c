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
    SHAFT_TURNS,
    SHAFT_STANDS,
    GAUGES_AGREE,
    GAUGES_DIFFER,
    FALLS_TO_ZERO,
    STAYS_UP,
    WATER_FOUND,
    ALL_DRY,
    AIR_CAME,
    NO_AIR,
    STRAINER_DIRTY,
    STRAINER_CLEAN,
    COUPLING_SLIPPED,
    COUPLING_HELD,
    FULLY_OPEN,
    NOT_FULLY_OPEN,
    DIAL_AGREES,
    DIAL_DIFFERS,
    FOLLOWS_SETTING,
    DOES_NOT_FOLLOW;

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
