package leat.diagnose;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/** Bayes' rule for causes that exclude one another. */
final class Bayes {

    private Bayes() {}

    /**
     * @param prior by cause, 0 or more; they need not sum to 1
     * @param likelihood of what was found, by cause
     * @return weights that sum to 1; the prior as it is where it has no weight, or what was found
     *     is impossible under each cause that has one
     */
    static Map<Cause, Double> posterior(
            Map<Cause, Double> prior, ToDoubleFunction<Cause> likelihood) {
        EnumMap<Cause, Double> posterior = new EnumMap<>(Cause.class);
        double sum = 0;
        for (Cause cause : Cause.values()) {
            if (prior.containsKey(cause)) {
                double weight = prior.get(cause) * likelihood.applyAsDouble(cause);
                posterior.put(cause, weight);
                sum += weight;
            }
        }
        if (!(sum > 0)) {
            return Collections.unmodifiableMap(prior);
        }
        double whole = sum;
        posterior.replaceAll((cause, weight) -> weight / whole);
        return Collections.unmodifiableMap(posterior);
    }
}
