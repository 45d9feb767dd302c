package leat.diagnose;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import leat.measure.RestSpell;

/**
 * What cannot be, whatever the numbers of starts and runs look like. With the water shut the gauge
 * before the valve stands under the supply and the one behind it does not: where the inlet reads
 * clearly more than the boosted gauge, the two are not changed over. Common practice, no source.
 */
final class RuledOut {

    /** Both may be off by as much, psi. */
    private static final double CLEARLY_PSI = 5;

    /** For a stop that was read wrong; own choice. */
    private static final double LEFT = 0.05;

    private RuledOut() {}

    /**
     * @param weights sum to 1
     * @return likewise
     */
    static Map<Cause, Double> from(Map<Cause, Double> weights, List<Observation> observations) {
        double swapped = weights.getOrDefault(Cause.SWAPPED, 0.0);
        if (swapped == 0 || observations.stream().noneMatch(RuledOut::areRightAtRest)) {
            return weights;
        }
        Map<Cause, Double> left = new EnumMap<>(weights);
        left.put(Cause.SWAPPED, LEFT * swapped);
        double sum = left.values().stream().mapToDouble(Double::doubleValue).sum();
        left.replaceAll((cause, weight) -> weight / sum);
        return left;
    }

    private static boolean areRightAtRest(Observation seen) {
        return seen.rest()
                .filter(RestSpell::settled)
                .filter(rest -> rest.inletPsi().isPresent() && rest.boostedPsi().isPresent())
                .filter(rest -> rest.inletPsi().get() - rest.boostedPsi().get() > CLEARLY_PSI)
                .isPresent();
    }
}
