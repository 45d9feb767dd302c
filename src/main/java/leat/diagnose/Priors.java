package leat.diagnose;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * How likely each cause is before anything is seen, by what people did to the machine. Immutable.
 *
 * @param factors odds beside those of a machine of which nothing is known; a cause that is missing
 *     has 1
 */
public record Priors(Map<Cause, Double> factors) {

    /** Nothing is known of what was done. */
    public static final Priors NONE = new Priors(Map.of());

    public Priors {
        EnumMap<Cause, Double> copy = new EnumMap<>(Cause.class);
        copy.putAll(factors);
        factors = Collections.unmodifiableMap(copy);
    }

    double factor(Cause cause) {
        return factors.getOrDefault(cause, 1.0);
    }
}
