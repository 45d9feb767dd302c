package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Limit;

/**
 * A limit that applies at this moment.
 *
 * @param limit which
 * @param grade how grave it is to break it for as long as its delay
 * @param sense on which side good values lie
 * @param value psi, or of the boost a plain ratio
 */
public record LimitNow(Limit limit, Grade grade, Sense sense, double value) {

    public LimitNow {
        requireNonNull(limit, "limit");
        requireNonNull(grade, "grade");
        requireNonNull(sense, "sense");
    }

    /** Whether a value is on its wrong side; only when that lasts there is an alarm. */
    public boolean isBrokenBy(double shown) {
        return sense == Sense.AT_LEAST ? shown < value : shown > value;
    }

    /** The gravest of several that a value breaks. */
    public static Optional<LimitNow> gravestBroken(List<LimitNow> limits, double shown) {
        return limits.stream()
                .filter(limit -> limit.isBrokenBy(shown))
                .max(Comparator.comparing(LimitNow::grade));
    }
}
