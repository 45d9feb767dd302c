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

    /**
     * Of calls hardly one in a hundred is of a sound machine: a limit that the site has set, or its
     * own baseline, was broken for as long as the rule asks. Own choice, no source.
     */
    private static final double HEALTHY_ALTHOUGH_CALLED = 0.01;

    /** The same of a machine whose pressures a rule has called for. */
    Priors called() {
        EnumMap<Cause, Double> called = new EnumMap<>(Cause.class);
        called.putAll(factors);
        called.merge(Cause.HEALTHY, HEALTHY_ALTHOUGH_CALLED, (one, other) -> one * other);
        return new Priors(called);
    }

    double factor(Cause cause) {
        return factors.getOrDefault(cause, 1.0);
    }
}
