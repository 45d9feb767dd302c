package leat.measure;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.measure.absence.Absence;
import leat.signal.Keyword;

/**
 * What a person should know of how a start was measured. Immutable.
 *
 * @param kind what it says
 * @param because why there is no curve; empty where there is one
 */
public record ClimbRemark(Kind kind, Optional<Absence> because) {

    /** What can be said of a climb. */
    public enum Kind {
        /** The level reached is that before the strokes. */
        TOP_UNLOADED,
        /** The level reached is that under the strokes, which began in the climb. */
        TOP_LOADED,
        /** The level reached is that of the last seconds: before the strokes or under them. */
        TOP_UNSURE,
        /** No first-order curve fits the climb. */
        NO_CURVE,
        /** Rise and start to 90 % are from a fitted curve: the readings are too far apart. */
        FROM_CURVE,
        /** The pressure swings about the climb. */
        SWINGS,
        /** A fill, and then the boost. */
        TWO_CLIMBS,
        /** Not the shape of a first-order climb: its fit is to be read with care. */
        OTHER_SHAPE;

        /** Its name in the store and among the phrases, such as {@code two-climbs}. */
        public String key() {
            return Keyword.of(this);
        }
    }

    public ClimbRemark {
        requireNonNull(kind, "kind");
        requireNonNull(because, "because");
        if (because.isPresent() != (kind == Kind.NO_CURVE)) {
            throw new IllegalArgumentException(kind + " because of " + because);
        }
    }

    static ClimbRemark of(Kind kind) {
        return new ClimbRemark(kind, Optional.empty());
    }

    static ClimbRemark noCurve(Absence because) {
        return new ClimbRemark(Kind.NO_CURVE, Optional.of(because));
    }
}
