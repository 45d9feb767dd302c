package leat.bench.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FrictionTest {

    /**
     * Published example: the documentation of the open Python library "fluids", function Colebrook,
     * for a Reynolds number of 1E5 and a relative roughness of 1E-4.
     */
    @Test
    void colebrook_gives_the_published_example() {
        assertThat(Friction.colebrook(1e5, 1e-4)).isCloseTo(0.018513866077471, within(1e-12));
    }

    /**
     * The same documentation for Swamee-Jain, which writes 6.97/Re to the 0.9 instead of 5.74 over
     * Re to the 0.9: they part in the sixth digit.
     */
    @Test
    void swamee_jain_gives_the_published_example() {
        assertThat(Friction.swameeJain(1e5, 1e-4)).isCloseTo(0.018452424431901808, within(3e-8));
    }

    /** Worked independently from the formulas as textbooks give them. */
    @ParameterizedTest
    @CsvSource({
        "1e4, 0,      0.030882950, 0.030886204, 0.030972097",
        "5e4, 0.0018, 0.026044097, 0.025808598, 0.026294779",
        "1e5, 0,      0.017989773, 0.017824939, 0.017862578",
        "1e5, 1e-4,   0.018513866, 0.018265053, 0.018452445",
        "1e5, 1e-3,   0.022174536, 0.021966214, 0.022342412",
        "1e5, 1e-2,   0.038503544, 0.038538506, 0.038750932",
        "1e6, 1e-4,   0.013441438, 0.013326160, 0.013507703"
    })
    void three_laws_agree_with_an_independent_working(
            double reynolds, double roughness, double colebrook, double haaland, double swamee) {
        assertThat(Friction.colebrook(reynolds, roughness)).isCloseTo(colebrook, within(1e-9));
        assertThat(Friction.haaland(reynolds, roughness)).isCloseTo(haaland, within(1e-9));
        assertThat(Friction.swameeJain(reynolds, roughness)).isCloseTo(swamee, within(1e-9));
    }

    /** Hagen-Poiseuille, any textbook: 64/Re. */
    @Test
    void slow_flow_is_laminar() {
        assertThat(Friction.factor(128, 0.01)).isCloseTo(0.5, withinPercentage(1e-9));
    }

    @Test
    void nonsense_is_refused() {
        assertThatIllegalArgumentException().isThrownBy(() -> Friction.factor(0, 0));
        assertThatIllegalArgumentException().isThrownBy(() -> Friction.factor(1e5, 0.2));
    }
}
