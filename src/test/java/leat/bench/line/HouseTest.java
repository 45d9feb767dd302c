package leat.bench.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import leat.Gear;
import leat.bench.water.Units;
import org.junit.jupiter.api.Test;

class HouseTest {

    private static final double USUAL_PSI = 45;
    private static final long WEEK = 7 * 86_400;

    private static LineSettings settings(House house) {
        return new LineSettings(USUAL_PSI, 100, Build.USUAL.in(house));
    }

    /** How far the supply is from its usual pressure, second by second, psi. */
    private static double[] week(House house) {
        Supply supply = new Supply(settings(house), new Chance(5));
        return LongStream.range(0, WEEK)
                .mapToDouble(second -> supply.pressure(second) / Units.PSI - USUAL_PSI)
                .toArray();
    }

    @Test
    void wander_uses_its_band_and_never_leaves_it() {
        double[] psi = week(new House(0, 8, 0, 0, 8));

        assertThat(Arrays.stream(psi).min().orElseThrow()).isBetween(-8.0, -5.0);
        assertThat(Arrays.stream(psi).max().orElseThrow()).isBetween(5.0, 8.0);
        assertThat(IntStream.range(1, psi.length).mapToDouble(s -> Math.abs(psi[s] - psi[s - 1])))
                .allMatch(step -> step < 0.01);
    }

    @Test
    void dips_come_as_often_and_as_deep_as_asked() {
        double[] psi = week(new House(0, 0, 6, 5, 8));

        long begun =
                IntStream.range(1, psi.length).filter(s -> psi[s] < -1 && psi[s - 1] >= -1).count();
        assertThat(begun).isBetween(24 * 7 * 6L * 95 / 100, 24 * 7 * 6L);
        assertThat(Arrays.stream(psi).min().orElseThrow()).isBetween(-5.0, -4.9);
        assertThat(Arrays.stream(psi).filter(p -> p < -2).count() / (double) begun)
                .isBetween(7.5, 9.5);
    }

    @Test
    void quiet_house_drifts_by_half_a_psi_at_most() {
        double[] psi = week(House.QUIET);

        assertThat(Arrays.stream(psi).map(Math::abs).max().orElseThrow()).isBetween(0.4, 0.5);
    }

    @Test
    void house_moves_the_inlet_and_spares_the_level() {
        LumpedLine line = new LumpedLine(settings(new House(0.5, 6, 20, 8, 8)), 4);
        line.start();
        line.advance(60);
        List<LineState> states =
                IntStream.range(0, Gear.of(1800, 7140))
                        .mapToObj(
                                second -> {
                                    line.advance(1.03);
                                    return line.state();
                                })
                        .toList();

        DoubleSummaryStatistics inlet =
                states.stream().mapToDouble(LineState::inletPsi).summaryStatistics();
        DoubleSummaryStatistics level =
                states.stream().mapToDouble(LineState::boostedPsi).summaryStatistics();

        // 45 psi and the wander, less the dips and what is lost while the machine draws; when a
        // stroke ends the water that is stopped pushes a little
        assertThat(inlet.getMax()).isLessThan(45 + 6.5 + 1.5);
        assertThat(inlet.getMin()).isGreaterThan(45 - 6.5 - 8 - 8);
        assertThat(inlet.getMax() - inlet.getMin()).isGreaterThan(8);
        assertThat(level.getAverage()).isBetween(98.0, 102.0);
    }

    @Test
    void house_that_nobody_has_is_refused() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new House(0.5, 30, 0, 0, 8))
                .withMessageContaining("wander is 30.0, allowed is 0.0 to 20.0");
    }
}
