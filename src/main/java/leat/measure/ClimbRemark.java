package leat.measure;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;
import java.util.Optional;
import leat.signal.Keyword;

/**
 * What a person should know of how a start was measured. Immutable.
 *
 * @param kind what it says
 */
public record ClimbRemark(Kind kind) {

    /** What can be said of a climb. */
    public enum Kind {
        /** The level reached is that before the strokes. */
        TOP_UNLOADED,
        /** The level reached is that under the strokes, which began in the climb. */
        TOP_LOADED,
        /** The level reached is that of the last seconds: before the strokes or under them. */
        TOP_UNSURE,
        /** Rise and start to 90 % are from a fitted curve: the readings are too far apart. */
        FROM_CURVE;

        /** Its name in the store and among the phrases, such as {@code from-curve}. */
        public String key() {
            return Keyword.of(this);
        }

        public static Optional<Kind> byKey(String key) {
            return Arrays.stream(values()).filter(kind -> kind.key().equals(key)).findFirst();
        }
    }

    public ClimbRemark {
        requireNonNull(kind, "kind");
    }
}
