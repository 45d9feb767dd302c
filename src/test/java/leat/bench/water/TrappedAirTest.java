package leat.bench.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TrappedAirTest {

    /** p V^n = constant (any textbook), worked independently from one atmosphere. */
    @ParameterizedTest
    @CsvSource({
        "1.0,  40, 0.26868", "1.0,  80, 0.15519", "1.0, 120, 0.10910",
        "1.4,  40, 0.39113", "1.4,  80, 0.26427", "1.4, 120, 0.20547"
    })
    void isothermal_and_adiabatic_squeezing_follow_the_gas_law(
            double exponent, double psi, double share) {
        assertThat(new TrappedAir(exponent).squeezed(psi * Units.PSI))
                .isCloseTo(share, within(1e-5));
    }

    @ParameterizedTest
    @CsvSource({"1.0, 0.57760", "1.4, 0.67566"})
    void from_40_to_80_psi_the_law_holds_too(double exponent, double share) {
        TrappedAir air = new TrappedAir(exponent);

        double before = air.squeezed(40 * Units.PSI);
        double after = air.squeezed(80 * Units.PSI);

        assertThat(after / before).isCloseTo(share, within(1e-5));
    }

    /**
     * Effective modulus 1/K = x/(n p) + (1 - x)/K (fluid-power textbooks), x the share of air at
     * that pressure, K 2.19 GPa; worked independently. Shares are those at one atmosphere, MPa.
     */
    @ParameterizedTest
    @CsvSource({
        "1.0, 0,     0, 2190",
        "1.0, 0,     80, 2190",
        "1.0, 0.001, 0, 96.85",
        "1.0, 0.001, 40, 855.1",
        "1.0, 0.001, 80, 1440.0",
        "1.0, 0.01,  0, 10.09",
        "1.0, 0.01,  40, 131.0",
        "1.0, 0.01,  80, 350.5",
        "1.0, 0.05,  0, 2.02",
        "1.0, 0.05,  40, 26.7",
        "1.0, 0.05,  80, 77.8",
        "1.4, 0.01,  0, 14.10",
        "1.4, 0.01,  40, 126.4",
        "1.4, 0.01,  80, 296.9"
    })
    void little_air_makes_water_soft_as_fluid_power_textbooks_say(
            double exponent, double share, double psi, double megapascals) {
        double modulus = new TrappedAir(exponent).bulkModulus(share, psi * Units.PSI);

        assertThat(modulus / 1e6).isCloseTo(megapascals, withinPercentage(0.4));
    }

    @Test
    void compliance_is_the_slope_of_the_squeezing() {
        TrappedAir air = new TrappedAir(1.2);
        double pressure = 50 * Units.PSI;
        double step = 1;

        double slope = (air.squeezed(pressure - step) - air.squeezed(pressure + step)) / (2 * step);

        assertThat(air.compliance(pressure, air.squeezed(pressure)))
                .isCloseTo(slope, withinPercentage(1e-4));
    }

    @Test
    void no_gas_squeezes_beyond_its_two_limits() {
        assertThatIllegalArgumentException().isThrownBy(() -> new TrappedAir(0.9));
        assertThatIllegalArgumentException().isThrownBy(() -> new TrappedAir(1.7));
    }
}
