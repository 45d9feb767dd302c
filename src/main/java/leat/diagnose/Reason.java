package leat.diagnose;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
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
 * @param fallsShort of what speaks against: the cause moves it that way, but mostly further
 */
public record Reason(
        Feature feature, double value, OptionalDouble usual, double weight, boolean fallsShort) {

    /** Standard deviations from start to start within which a value is called usual. */
    private static final double ORDINARY = 2;

    public Reason {
        requireNonNull(feature, "feature");
        requireNonNull(usual, "usual");
        if (!Double.isFinite(value) || !Double.isFinite(weight)) {
            throw new IllegalArgumentException(feature + " " + value + ", weight " + weight);
        }
    }

    public Reason(Feature feature, double value, OptionalDouble usual, double weight) {
        this(feature, value, usual, weight, false);
    }

    /** Where a value lies beside what is usual. */
    public enum Side {
        LESS,
        USUAL,
        MORE
    }

    /** On which side of the usual it lies; empty where nothing is usual. */
    public Optional<Side> side() {
        if (usual.isEmpty()) {
            return Optional.empty();
        }
        double difference = feature.onScale(value) - feature.onScale(usual.getAsDouble());
        if (Math.abs(difference) <= ORDINARY * feature.within()) {
            return Optional.of(Side.USUAL);
        }
        return Optional.of(difference < 0 ? Side.LESS : Side.MORE);
    }
}
