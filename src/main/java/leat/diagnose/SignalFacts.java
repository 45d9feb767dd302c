package leat.diagnose;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** What was found wrong with readings decides first: pressures tell little where they are wrong. */
final class SignalFacts {

    /** Such a finding is nearly always what it says; own choice. */
    private static final double SURE = 0.97;

    private SignalFacts() {}

    /**
     * @param facts in any order; may be empty
     * @param byPressures what the pressures alone say; sums to 1
     * @return sums to 1
     */
    static Map<Cause, Double> weigh(List<SignalFact> facts, Map<Cause, Double> byPressures) {
        if (facts.isEmpty()) {
            return byPressures;
        }
        Map<Cause, Double> told = new EnumMap<>(Cause.class);
        facts.stream().distinct().forEach(fact -> told.merge(cause(fact), 1.0, Double::sum));
        double sum = told.values().stream().mapToDouble(Double::doubleValue).sum();
        Map<Cause, Double> all = new EnumMap<>(Cause.class);
        byPressures.forEach((cause, weight) -> all.put(cause, (1 - SURE) * weight));
        told.forEach((cause, count) -> all.merge(cause, SURE * count / sum, Double::sum));
        return all;
    }

    private static Cause cause(SignalFact fact) {
        return switch (fact.kind()) {
            case OPEN -> Cause.OPEN_LOOP;
            case LOOSE -> Cause.LOOSE_LOOP;
            case STUCK -> Cause.STUCK;
            case SWAPPED -> Cause.SWAPPED;
            case NEVER_RIGHT -> Cause.CONFIGURATION;
        };
    }
}
