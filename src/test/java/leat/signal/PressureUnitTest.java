package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Factors: NIST Special Publication 811 (2008), Appendix B. */
class PressureUnitTest {

    @Test
    void the_factor_of_psi_is_that_of_sp_811() {
        double pascalPerPsi = 1000 * PressureUnit.KPA.fromPsi(1);

        assertThat(pascalPerPsi).isCloseTo(6.894_757e3, within(5e-4));
        assertThat(pascalPerPsi).isCloseTo(4.4482216152605 / (0.0254 * 0.0254), within(1e-9));
    }

    @Test
    void a_bar_is_exactly_100_kilopascal() {
        double psi = PressureUnit.BAR.toPsi(1);

        assertThat(psi).isCloseTo(14.503773773, within(5e-10));
        assertThat(PressureUnit.KPA.toPsi(100)).isCloseTo(psi, within(1e-13));
        assertThat(PressureUnit.KPA.toPsi(1)).isCloseTo(0.145037737730, within(5e-13));
    }

    @Test
    void the_standard_atmosphere_is_what_the_tables_say() {
        assertThat(PressureUnit.KPA.toPsi(101.325)).isCloseTo(14.695948776, within(5e-10));
    }

    @ParameterizedTest
    @CsvSource({
        "40, 275.790292, 2.757903",
        "80, 551.580583, 5.515806",
        "100, 689.475729, 6.894757",
        "120, 827.370875, 8.273709"
    })
    void the_pressures_of_the_trade_convert_both_ways(double psi, double kpa, double bar) {
        assertThat(PressureUnit.KPA.fromPsi(psi)).isCloseTo(kpa, within(5e-7));
        assertThat(PressureUnit.BAR.fromPsi(psi)).isCloseTo(bar, within(5e-7));
        assertThat(PressureUnit.KPA.toPsi(kpa)).isCloseTo(psi, within(1e-6));
        assertThat(PressureUnit.BAR.toPsi(bar)).isCloseTo(psi, within(1e-5));
        assertThat(PressureUnit.PSI.fromPsi(psi)).isEqualTo(psi);
    }

    @ParameterizedTest
    @EnumSource
    void there_and_back_gives_the_value_back(PressureUnit unit) {
        Random random = new Random(811);
        for (int i = 0; i < 1000; i++) {
            double psi = random.nextDouble() * 400 - 15;

            double back = unit.toPsi(unit.fromPsi(psi));

            assertThat(back).as("seed 811, draw %d", i).isCloseTo(psi, within(1e-12));
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_unit_is_found_by_its_symbol_and_by_no_other_spelling(PressureUnit unit) {
        assertThat(PressureUnit.bySymbol(unit.symbol())).contains(unit);
        assertThat(PressureUnit.bySymbol(unit.symbol() + "g")).isEmpty();
    }
}
