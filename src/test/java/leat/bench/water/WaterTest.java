package leat.bench.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class WaterTest {

    /** Check values of IAPWS-IF97 (Revised Release, 2012), table 35. */
    @ParameterizedTest
    @CsvSource({"300, 0.353658941E-2", "500, 0.263889776E1", "600, 0.123443146E2"})
    void vapour_pressure_gives_the_check_values_of_the_standard(double kelvin, double megapascals) {
        assertThat(Water.vapourPressureAt(kelvin))
                .isCloseTo(megapascals * 1e6, withinPercentage(1e-6));
    }

    /** IAPWS-IF97 region 4; the file says how it was made. */
    @ParameterizedTest
    @CsvFileSource(resources = "/references/psat_if97.csv", numLinesToSkip = 3)
    void vapour_pressure_follows_the_standard_by_temperature(double celsius, double pascals) {
        assertThat(Water.vapourPressureAt(celsius + 273.15))
                .isCloseTo(pascals, withinPercentage(0.001));
    }

    /** Density and viscosity as textbooks tabulate them, to their last digit; from memory. */
    @ParameterizedTest
    @CsvSource({"10, 999.70, 1.306", "20, 998.21, 1.002", "30, 995.65, 0.797"})
    void density_and_viscosity_are_those_of_the_tables(
            double celsius, double density, double milliPascalSeconds) {
        Water water = Water.at(celsius);

        assertThat(water.density()).isCloseTo(density, withinPercentage(0.001));
        assertThat(water.viscosity() * 1e3).isCloseTo(milliPascalSeconds, withinPercentage(0.1));
    }

    @Test
    void ice_and_hot_water_are_refused() {
        assertThatIllegalArgumentException().isThrownBy(() -> Water.at(-1));
        assertThatIllegalArgumentException().isThrownBy(() -> Water.at(61));
    }
}
