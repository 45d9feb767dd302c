package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.watch.RiseAccuracyTable.Off;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A startup's figures against the bench's noise-free truth, for every scenario with starts that
 * rise: the rise within 5 % or 100 ms, the level within 1.5 psi, the ratio within 3 %.
 */
class RiseAccuracyTest {

    private static final int SEEDS = 3;

    static List<String> names() {
        return RiseAccuracyTable.names();
    }

    @ParameterizedTest
    @MethodSource("names")
    void figures_of_a_startup_are_near_the_truth_at_twenty_readings_a_second(String name) {
        List<Off> offs = RiseAccuracyTable.offs(name, SEEDS, 20);

        assertThat(offs).allMatch(off -> off.riseShare() < 1);
        assertThat(offs).allMatch(off -> Math.abs(off.topOff()) < 1.5);
        assertThat(offs).allMatch(off -> Math.abs(off.ratioOffPercent()) < 3);
    }
}
