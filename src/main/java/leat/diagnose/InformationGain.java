package leat.diagnose;

import java.util.Map;
import java.util.function.ToDoubleFunction;

/** How much a question with two answers tells, in bits (Shannon's mutual information). */
final class InformationGain {

    private static final double LOG_2 = Math.log(2);

    private InformationGain() {}

    /**
     * What is open while the one of two things has this probability.
     *
     * @return 0 to 1
     */
    static double entropy(double probability) {
        return part(probability) + part(1 - probability);
    }

    private static double part(double probability) {
        return probability > 0 ? -probability * Math.log(probability) / LOG_2 : 0;
    }

    /**
     * What the answer is expected to tell about which of all it is.
     *
     * @param weights 0 or more; they need not sum to 1
     * @param first probability of the first answer under each
     * @return 0 or more, at most 1; 0 where nothing has a weight
     */
    static <T> double of(Map<T, Double> weights, ToDoubleFunction<T> first) {
        double sum = 0;
        double expected = 0;
        double open = 0;
        for (Map.Entry<T, Double> one : weights.entrySet()) {
            double probability = first.applyAsDouble(one.getKey());
            sum += one.getValue();
            expected += one.getValue() * probability;
            open += one.getValue() * entropy(probability);
        }
        return sum > 0 ? Math.max(0, entropy(Math.min(1, expected / sum)) - open / sum) : 0;
    }

    /**
     * What the answer is expected to tell about which of two equally likely things it is.
     *
     * @param one probability of the first answer under the one
     * @param other the same under the other
     * @return 0 to 1
     */
    static double between(double one, double other) {
        return Math.max(0, entropy((one + other) / 2) - (entropy(one) + entropy(other)) / 2);
    }
}
