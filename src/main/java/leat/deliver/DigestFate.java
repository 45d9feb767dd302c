package leat.deliver;

import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.rule.Grade;
import leat.signal.Keyword;

/** What has become of an alarm by the time of a digest. */
enum DigestFate {
    /** It is there and ADVISORY. */
    STANDS,
    /** It is there and graver by now: that was told at once. */
    GRAVER,
    /** It is there and held back: shelved, in service or out of service. */
    ASIDE,
    /** It has gone, and nobody has acknowledged it. */
    GONE_UNACKNOWLEDGED,
    /** It has gone, but it is latched and waits for its reset. */
    LATCHED,
    /** It is over. */
    GONE;

    /**
     * @param latest the alarm's latest change; empty when it is back to normal
     */
    static DigestFate of(Optional<AlarmChange> latest) {
        if (latest.isEmpty()) {
            return GONE;
        }
        AlarmChange change = latest.get();
        AlarmState own = change.to().isHeld() ? change.notes().own() : change.to();
        return switch (own) {
            case UNACKNOWLEDGED, ACKNOWLEDGED -> active(change);
            case RETURNED_UNACKNOWLEDGED -> GONE_UNACKNOWLEDGED;
            case LATCHED_UNACKNOWLEDGED, LATCHED_ACKNOWLEDGED -> LATCHED;
            case NORMAL, SHELVED, SUPPRESSED, OUT_OF_SERVICE -> GONE;
        };
    }

    private static DigestFate active(AlarmChange change) {
        if (change.to().isHeld()) {
            return ASIDE;
        }
        return change.finding().grade().isAtLeast(Grade.WARNING) ? GRAVER : STANDS;
    }

    boolean isGone() {
        return this == GONE_UNACKNOWLEDGED || this == LATCHED || this == GONE;
    }

    /** The word of the JSON, such as {@code gone-unacknowledged}. */
    String key() {
        return Keyword.of(this);
    }
}
