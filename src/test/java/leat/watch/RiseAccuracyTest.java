package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import leat.watch.RiseAccuracyTable.Condition;
import leat.watch.RiseAccuracyTable.Off;
import leat.watch.RiseAccuracyTable.Sampling;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A startup's figures against the bench's noise-free truth: the rise within 5 % or 100 ms, the top
 * within 1.5 psi, the ratio within 3 %. Four times the usual noise is allowed half as much again.
 */
class RiseAccuracyTest {

    private static final int SEEDS = 20;

    @ParameterizedTest
    @EnumSource(Condition.class)
    void figures_of_a_startup_are_near_the_truth_at_twenty_and_at_ten_readings_a_second(
            Condition condition) {
        for (Sampling sampling : new Sampling[] {Sampling.AT_20_HZ, Sampling.AT_10_HZ}) {
            for (Off off : RiseAccuracyTable.offs(condition, sampling, SEEDS)) {
                assertThat(off.riseShare()).as("%s", off).isLessThan(1);
                assertThat(Math.abs(off.topOff())).as("%s", off).isLessThan(1.5);
                assertThat(Math.abs(off.ratioOffPercent())).as("%s", off).isLessThan(3);
            }
        }
    }

    @ParameterizedTest
    @EnumSource(Condition.class)
    void a_noisy_transmitter_hardly_moves_them(Condition condition) {
        for (Off off : RiseAccuracyTable.offs(condition, Sampling.NOISY_AT_20_HZ, SEEDS)) {
            assertThat(off.riseShare()).as("%s", off).isLessThan(1.5);
            assertThat(Math.abs(off.topOff())).as("%s", off).isLessThan(1.5);
            assertThat(Math.abs(off.ratioOffPercent())).as("%s", off).isLessThan(3);
        }
    }
}
