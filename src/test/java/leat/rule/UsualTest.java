package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import leat.measure.Measurand;
import org.junit.jupiter.api.Test;

class UsualTest {

    @Test
    void the_spread_of_normally_scattered_values_is_their_standard_deviation() {
        Random random = new Random(1);

        double[] values =
                random.doubles(20_000).map(x -> 100 + 3 * random.nextGaussian()).toArray();

        Usual usual = Usual.of(Measurand.TOP, values);
        // 1.4826 = 1 / (quartile of the normal distribution), Rousseeuw and Croux, JASA 88, 1993
        assertThat(usual.median()).isCloseTo(100, within(0.1));
        assertThat(usual.spread()).isCloseTo(3, within(0.1));
        assertThat(usual.count()).isEqualTo(20_000);
    }

    @Test
    void one_start_in_three_that_was_odd_moves_neither_much() {
        Usual usual =
                Usual.of(Measurand.RISE, new double[] {1.3, 1.2, 9, 1.4, 1.3, 12, 1.2, 8, 1.4});

        assertThat(usual.median()).isEqualTo(1.4);
        assertThat(usual.spread()).isLessThan(0.4);
    }

    @Test
    void the_median_of_an_even_number_lies_between_the_two_in_the_middle() {
        assertThat(Usual.of(Measurand.TOP, new double[] {100, 90, 96, 94}).median()).isEqualTo(95);
    }

    @Test
    void a_few_like_values_do_not_make_a_spread_of_nothing() {
        double[] alike = {1.3, 1.3, 1.3};

        assertThat(Usual.of(Measurand.RISE, alike).spread()).isEqualTo(0.05);
        assertThat(Usual.of(Measurand.TOP, new double[] {100, 100, 100}).spread()).isEqualTo(1);
        assertThat(Usual.of(Measurand.DROP, new double[] {0, 0, 0}).spread()).isEqualTo(0.25);
    }

    @Test
    void a_level_that_was_changed_while_leat_learned_does_not_make_the_baseline_wide() {
        double[] turnedUp = {90, 90, 91, 90, 91, 108, 109, 108, 109, 108};

        Usual usual = Usual.of(Measurand.LOADED, turnedUp);

        assertThat(3 * usual.spread()).isLessThan(0.1 * usual.median());
    }

    @Test
    void of_a_number_whose_scatter_says_nothing_any_scatter_is_believed() {
        double[] wide = {10, 20, 30, 40, 50};

        assertThat(Usual.of(Measurand.OVERSHOOT, wide).spread()).isGreaterThan(10);
    }
}
