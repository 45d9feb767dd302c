package leat.diagnose;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Ranks the causes of what was seen. A function: the same observations always give the same
 * diagnosis. Immutable, thread-safe.
 */
public final class Diagnostician {

    /** A cause that weighs less is as good as none. */
    private static final double LEAST_WEIGHT = 1e-9;

    /** Starts; own choice. */
    private static final int MENDED_AFTER = 3;

    private Diagnostician() {}

    /**
     * @param observations of one machine, oldest first, all since it was last worked on; several
     *     tell more than one
     * @param reference what is usual for it
     * @param priors what was done to it
     * @param answers what people have found
     */
    public static Diagnosis why(
            List<Observation> observations,
            Reference reference,
            Priors priors,
            List<Answer> answers) {
        Ranking ranking =
                new Ranking(
                        Evidence.of(observations, reference),
                        reference.known(),
                        Weights.published(),
                        priors);
        Map<Cause, Double> weights =
                Checks.answered(
                        SignalFacts.weigh(
                                facts(observations), RuledOut.from(ranking.causes(), observations)),
                        answers);
        InletGauge inletGauge = InletGauge.seenIn(observations);
        List<Suspect> suspects =
                weights.entrySet().stream()
                        .sorted(
                                Map.Entry.<Cause, Double>comparingByValue(
                                        Comparator.reverseOrder()))
                        .filter(entry -> entry.getValue() >= LEAST_WEIGHT)
                        .map(
                                entry ->
                                        suspect(
                                                entry.getKey(),
                                                entry.getValue(),
                                                ranking,
                                                Checks.best(
                                                        weights,
                                                        entry.getKey(),
                                                        answers,
                                                        inletGauge)))
                        .toList();
        return new Diagnosis(suspects, observations.size(), reference.known(), answers);
    }

    /** A gauge that has read right for as many starts is mended. */
    private static List<SignalFact> facts(List<Observation> observations) {
        int from = Math.max(0, observations.size() - MENDED_AFTER);
        return observations.subList(from, observations.size()).stream()
                .flatMap(one -> one.signals().stream())
                .toList();
    }

    private static Suspect suspect(
            Cause cause, double weight, Ranking ranking, Optional<Check> check) {
        boolean isOfPressures = ranking.knows(cause);
        return new Suspect(
                cause,
                Math.min(1, weight),
                isOfPressures ? ranking.pro(cause) : List.of(),
                isOfPressures ? ranking.contra(cause) : List.of(),
                check);
    }
}
