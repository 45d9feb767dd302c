package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.Test;

/** Bayes' rule against published worked examples; causes stand for what they tell apart. */
class BayesTest {

    /**
     * Mammography: 1 % are ill, 80 % of these and 9.6 % of the others test positive. Of the
     * positive 7.8 % are ill (Eddy 1982; Gigerenzer and Hoffrage, Psychological Review 102, 1995,
     * 684-704; from memory).
     */
    @Test
    void a_positive_mammography_means_illness_in_eight_of_a_hundred() {
        Map<Cause, Double> after =
                Bayes.posterior(
                        Map.of(Cause.WORN_BOOSTER, 0.01, Cause.HEALTHY, 0.99),
                        cause -> cause == Cause.WORN_BOOSTER ? 0.8 : 0.096);

        assertThat(after.get(Cause.WORN_BOOSTER)).isCloseTo(0.078, within(0.0005));
        assertThat(after.get(Cause.HEALTHY)).isCloseTo(0.922, within(0.0005));
    }

    /**
     * The cab problem: 15 % of the cabs are blue, the rest green; a witness who is right in 80 %
     * says blue. It was blue with 0.41 (Tversky and Kahneman, in: Judgment under Uncertainty, 1982,
     * 156-158; from memory).
     */
    @Test
    void the_cab_that_was_called_blue_was_more_likely_green() {
        Map<Cause, Double> after =
                Bayes.posterior(
                        Map.of(Cause.SET_LOW, 0.15, Cause.AIR, 0.85),
                        cause -> cause == Cause.SET_LOW ? 0.8 : 0.2);

        assertThat(after.get(Cause.SET_LOW)).isCloseTo(0.41, within(0.005));
    }

    /**
     * Three machines make 20, 30 and 50 % of the output, of which 5, 3 and 1 % is defective. A
     * defective one is of the third with 5/24 (the standard example of three factories, from
     * memory).
     */
    @Test
    void a_defective_item_is_of_the_third_machine_in_five_of_twenty_four() {
        Map<Cause, Double> share = Map.of(Cause.AIR, 0.2, Cause.STUCK, 0.3, Cause.VALVE_LEAKS, 0.5);
        Map<Cause, Double> defective =
                Map.of(Cause.AIR, 0.05, Cause.STUCK, 0.03, Cause.VALVE_LEAKS, 0.01);

        Map<Cause, Double> after = Bayes.posterior(share, defective::get);

        assertThat(after.get(Cause.VALVE_LEAKS)).isCloseTo(5.0 / 24, within(1e-12));
        assertThat(after.values().stream().mapToDouble(x -> x).sum()).isCloseTo(1, within(1e-12));
    }

    @Test
    void what_is_impossible_under_every_cause_changes_nothing() {
        Map<Cause, Double> before = Map.of(Cause.AIR, 0.2, Cause.STUCK, 0.8);

        assertThat(Bayes.posterior(before, cause -> 0)).isEqualTo(before);
    }
}
