package leat.bench.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SuctionHeadTest {

    /**
     * NPSH = (atmosphere + gauge - vapour)/(rho g) + V2/2g (any pump handbook), worked
     * independently for 20 C and 0.679 m/s.
     */
    @ParameterizedTest
    @CsvSource({"40, 38.309", "0, 10.135", "-5, 6.614"})
    void head_available_is_that_of_the_handbook(double psi, double metres) {
        double head = SuctionHead.available(psi * Units.PSI, 0.679, Water.at(20));

        assertThat(head).isCloseTo(metres, within(0.003));
    }
}
