package leat.diagnose;

import static java.util.Objects.requireNonNull;

import java.util.OptionalDouble;

/**
 * A piece of evidence, for or against a cause. Immutable.
 *
 * @param feature what was looked at
 * @param value what it was, in the unit of the feature
 * @param usual what it is when the machine is sound; of the machine itself or, while that is
 *     learned, of machines in general. Empty of a feature that needs none
 * @param weight by how much it speaks for (above 0) or against (below 0) the cause beside the
 *     others, natural logarithm of a likelihood ratio
 */
public record Reason(Feature feature, double value, OptionalDouble usual, double weight) {

    public Reason {
        requireNonNull(feature, "feature");
        requireNonNull(usual, "usual");
        if (!Double.isFinite(value) || !Double.isFinite(weight)) {
            throw new IllegalArgumentException(feature + " " + value + ", weight " + weight);
        }
    }
}
