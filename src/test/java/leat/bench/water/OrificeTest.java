package leat.bench.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;

class OrificeTest {

    /**
     * Textbook law Q = Cd A sqrt(2 dp/rho), worked independently: 3 mm, Cd 0.61, 40 psi, 998.2
     * kg/m3 give 1.013580E-4 m3/s, which is 1.6066 US gallons a minute.
     */
    @Test
    void three_millimetres_at_40_psi_let_out_what_the_textbook_law_gives() {
        double flow = new Orifice(3e-3).flow(40 * Units.PSI, Water.at(20));

        assertThat(flow).isCloseTo(1.013580e-4, withinPercentage(0.002));
        assertThat(flow / (3.785411784e-3 / 60)).isCloseTo(1.6066, withinPercentage(0.01));
    }

    @Test
    void hole_without_a_width_is_refused() {
        assertThatIllegalArgumentException().isThrownBy(() -> new Orifice(0));
    }
}
