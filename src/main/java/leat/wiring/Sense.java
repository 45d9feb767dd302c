package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.OptionalDouble;
import leat.words.Saying;

/**
 * Whether a reading makes sense as a gauge pressure, and why.
 *
 * @param kind the judgement
 * @param psi mean over the reads; empty for what is no pressure, and for a current of a transducer
 *     whose span nobody said
 * @param why in a few words
 * @param fromGauge share of the span by which the mean is above what the hand gauge shows; 0 where
 *     none was read
 */
public record Sense(Kind kind, OptionalDouble psi, Saying why, double fromGauge) {

    /** From the best to the worst. */
    public enum Kind {
        /** Nothing speaks against it. */
        LIKELY,
        /** Next to 0: so does much that is no transducer. */
        NOTHING_YET,
        /** Below 0 by more than a zero wanders. */
        BELOW_ZERO,
        /** In range, but moves more than a line that is held still. */
        MOVES,
        /** In range, but not what the hand gauge shows. */
        OFF_THE_GAUGE,
        /** No pressure of such a line. */
        NO_PRESSURE
    }

    public Sense {
        requireNonNull(kind, "kind");
        requireNonNull(psi, "psi");
        requireNonNull(why, "why");
    }

    public boolean isLikely() {
        return kind == Kind.LIKELY;
    }

    static Sense none(String key) {
        return new Sense(Kind.NO_PRESSURE, OptionalDouble.empty(), Saying.of(key), 0);
    }
}
