package leat.diagnose;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * A cause with how likely it is, and why. Immutable.
 *
 * @param weight its probability, 0 to 1, after what people answered
 * @param pro evidence for it, the most telling first; at most {@link #MOST_REASONS}
 * @param contra evidence against it, likewise
 * @param check the check that would tell it from its rivals best for its cost; empty where none
 *     does
 */
public record Suspect(
        Cause cause, double weight, List<Reason> pro, List<Reason> contra, Optional<Check> check) {

    public static final int MOST_REASONS = 4;

    public Suspect {
        requireNonNull(cause, "cause");
        pro = List.copyOf(pro);
        contra = List.copyOf(contra);
        requireNonNull(check, "check");
        if (!(weight >= 0 && weight <= 1)) {
            throw new IllegalArgumentException(cause + ": weight " + weight);
        }
    }
}
