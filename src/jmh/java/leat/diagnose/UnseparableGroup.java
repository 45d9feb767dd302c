package leat.diagnose;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;

/**
 * Causes that show alike to two gauges. Within a group what was seen says next to nothing: its
 * weights are drawn around equal ones, and the true cause is drawn by them, so they are honest.
 *
 * @param about how it is called in print
 */
record UnseparableGroup(String about, List<Cause> causes, InletGauge inletGauge) {

    /**
     * Standard deviation of the logarithm of a weight: what was seen moves the odds of two by about
     * a factor of two. Own figure.
     */
    private static final double SPREAD = 0.5;

    /** How much of the weight stands outside of the group, on causes at large. Own figure. */
    private static final double OUTSIDE = 0.1;

    static final List<UnseparableGroup> ALL =
            List.of(
                    of("worn / set low", Cause.WORN_BOOSTER, Cause.SET_LOW),
                    of("worn / slipping", Cause.WORN_BOOSTER, Cause.COUPLING_SLIPS),
                    of(
                            "worn / slipping / set low",
                            Cause.WORN_BOOSTER,
                            Cause.COUPLING_SLIPS,
                            Cause.SET_LOW),
                    of("valve in part / worn", Cause.VALVE_PART_OPEN, Cause.WORN_BOOSTER),
                    of("weak supply / inlet offset", Cause.WEAK_SUPPLY, Cause.INLET_OFFSET),
                    new UnseparableGroup(
                            "the same, gauge behind valve",
                            List.of(Cause.WEAK_SUPPLY, Cause.INLET_OFFSET),
                            InletGauge.BEHIND_VALVE),
                    of("boosted offset / set low", Cause.BOOSTED_OFFSET, Cause.SET_LOW),
                    of("boosted offset / set high", Cause.BOOSTED_OFFSET, Cause.SET_HIGH),
                    new UnseparableGroup(
                            "boosted offset / set low, one gauge",
                            List.of(Cause.BOOSTED_OFFSET, Cause.SET_LOW),
                            InletGauge.NONE),
                    of("strainer / weak supply", Cause.STRAINER_CLOGGED, Cause.WEAK_SUPPLY),
                    new UnseparableGroup(
                            "strainer / valve in part, behind valve",
                            List.of(Cause.STRAINER_CLOGGED, Cause.VALVE_PART_OPEN),
                            InletGauge.BEHIND_VALVE),
                    of("external leak / strainer", Cause.EXTERNAL_LEAK, Cause.STRAINER_CLOGGED),
                    of("not turning / set low", Cause.NOT_TURNING, Cause.SET_LOW),
                    of("not turning / worn", Cause.NOT_TURNING, Cause.WORN_BOOSTER),
                    of("air / external leak", Cause.AIR, Cause.EXTERNAL_LEAK),
                    of("valve leaks / trapped", Cause.VALVE_LEAKS, Cause.HEALTHY),
                    of("valve leaks / boosted offset", Cause.VALVE_LEAKS, Cause.BOOSTED_OFFSET),
                    of(
                            "valve leaks / trapped / offset",
                            Cause.VALVE_LEAKS,
                            Cause.HEALTHY,
                            Cause.BOOSTED_OFFSET),
                    of("filters / healthy", Cause.FILTERS_CLOGGED, Cause.HEALTHY),
                    of("slow valve / healthy", Cause.VALVE_SLOW, Cause.HEALTHY),
                    of("sticking / slipping", Cause.REGULATOR_STICKING, Cause.COUPLING_SLIPS),
                    of("supply shut / strainer", Cause.SUPPLY_SHUT, Cause.STRAINER_CLOGGED));

    UnseparableGroup {
        causes = List.copyOf(causes);
    }

    private static UnseparableGroup of(String about, Cause... causes) {
        return new UnseparableGroup(about, List.of(causes), InletGauge.BEFORE_VALVE);
    }

    /** Weights as a diagnosis may give them; they sum to 1. */
    Map<Cause, Double> drawn(RandomGenerator random) {
        EnumMap<Cause, Double> weights = new EnumMap<>(Cause.class);
        double sum = 0;
        for (Cause cause : causes) {
            double weight = Math.exp(SPREAD * random.nextGaussian());
            weights.put(cause, weight);
            sum += weight;
        }
        double inside = (1 - OUTSIDE) / sum;
        weights.replaceAll((cause, weight) -> weight * inside);
        double each = OUTSIDE / Cause.values().length;
        for (Cause cause : Cause.values()) {
            weights.merge(cause, each, Double::sum);
        }
        return weights;
    }

    /** Of the causes of the group the one that is weighed most. */
    Cause first(Map<Cause, Double> weights) {
        return causes.stream()
                .max((one, other) -> Double.compare(weights.get(one), weights.get(other)))
                .orElseThrow();
    }

    /** A cause of the group, drawn by its weights. */
    Cause truth(Map<Cause, Double> weights, RandomGenerator random) {
        double sum = causes.stream().mapToDouble(weights::get).sum();
        double at = random.nextDouble() * sum;
        for (Cause cause : causes) {
            at -= weights.get(cause);
            if (at < 0) {
                return cause;
            }
        }
        return causes.get(causes.size() - 1);
    }
}
