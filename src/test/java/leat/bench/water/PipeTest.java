package leat.bench.water;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PipeTest {

    private static final Pipe ONE_INCH_STEEL = new Pipe(10, 26.64e-3, 3.38e-3, 0.046e-3, 200e9);

    private final Water water = Water.at(20);

    /**
     * Darcy-Weisbach, worked independently: 6 US gallons a minute at 20 C through 10 m of one inch
     * steel pipe run at 0.67913 m/s, Re 18 030.7, factor 0.029824, and lose 2577.1 Pa.
     */
    @Test
    void loss_of_a_worked_line_comes_out() {
        double gallonsAMinute = 6 * 3.785411784e-3 / 60;

        assertThat(gallonsAMinute / ONE_INCH_STEEL.area()).isCloseTo(0.67913, within(1e-5));
        assertThat(ONE_INCH_STEEL.loss(gallonsAMinute, water))
                .isCloseTo(2577.1, withinPercentage(0.1));
    }

    /**
     * Joukowsky with Korteweg's wave speed (formulas of any hydraulics textbook), for a velocity of
     * 1 m/s, worked independently with K = 2.19 GPa and 998.2 kg/m3: a rigid pipe, one inch steel,
     * and a soft hose.
     */
    @ParameterizedTest
    @CsvSource({
        "26.64, 3.38, Infinity, 1481.20, 1478.5",
        "26.64, 3.38, 200e9,    1421.23, 1418.7",
        "25.4,  4,    50e6,       88.66,   88.5"
    })
    void surge_is_that_of_joukowsky(
            double boreMm, double wallMm, double elasticity, double waveSpeed, double kiloPascals) {
        Pipe pipe = new Pipe(10, boreMm / 1e3, wallMm / 1e3, 0, elasticity);

        assertThat(pipe.waveSpeed(water)).isCloseTo(waveSpeed, withinPercentage(0.02));
        assertThat(pipe.surge(pipe.area(), water) / 1e3)
                .isCloseTo(kiloPascals, withinPercentage(0.05));
    }

    /** A length of pipe taken as one mass on one spring has the impedance of its waves. */
    @Test
    void lumped_pipe_surges_as_joukowsky_says() {
        double flow = 1e-4;

        double impedance =
                Math.sqrt(ONE_INCH_STEEL.inertance(water) / ONE_INCH_STEEL.compliance(water));

        assertThat(impedance * flow)
                .isCloseTo(ONE_INCH_STEEL.surge(flow, water), withinPercentage(1e-9));
    }

    @Test
    void pipe_without_a_bore_is_refused() {
        assertThatIllegalArgumentException().isThrownBy(() -> new Pipe(10, 0, 1e-3, 0, 2e11));
    }
}
