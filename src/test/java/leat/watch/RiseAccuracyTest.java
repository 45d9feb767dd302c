package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.Gear;
import leat.watch.RiseAccuracyTable.Off;
import leat.watch.RiseAccuracyTable.Sampling;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A startup's figures against the bench's noise-free truth, for every scenario with starts that
 * rise: the rise within 5 % or 100 ms, the level within 1.5 psi, the ratio within 3 %.
 */
class RiseAccuracyTest {

    private static final int SEEDS = Gear.of(1, 3);

    /** Its level swings so far that where the rise ends is a matter of chance. */
    private static final List<String> UNSTEADY = List.of("coupling-slips", "sticking-regulator");

    static List<String> steady() {
        return Gear.everyNth(
                12,
                RiseAccuracyTable.names().stream()
                        .filter(name -> !UNSTEADY.contains(name))
                        .toList());
    }

    @ParameterizedTest
    @MethodSource("steady")
    void figures_of_a_startup_are_near_the_truth_at_twenty_readings_a_second(String name) {
        List<Off> offs = RiseAccuracyTable.offs(name, SEEDS, Sampling.AT_20_HZ);

        assertThat(offs).isNotEmpty();
        assertThat(offs).allMatch(off -> off.riseShare() < 1);
        assertThat(offs).allMatch(off -> Math.abs(off.topOff()) < 1.5);
        assertThat(offs).allMatch(off -> Math.abs(off.ratioOffPercent()) < 3);
    }

    @ParameterizedTest
    @EnumSource(Sampling.class)
    void so_they_are_for_machines_of_other_builds_fewer_readings_and_more_noise(Sampling sampling) {
        List<Off> offs =
                RiseAccuracyTable.offs(RiseAccuracyTable.OTHER_MACHINES, Gear.of(3, 20), sampling);

        assertThat(offs).hasSize(Gear.of(3, 20));
        assertThat(offs).allMatch(off -> off.riseShare() < 1);
        assertThat(offs).allMatch(off -> Math.abs(off.topOff()) < 1.5);
        assertThat(offs).allMatch(off -> Math.abs(off.ratioOffPercent()) < 3);
    }

    static List<String> unsteady() {
        return Gear.everyNth(2, UNSTEADY);
    }

    /** The truth is that of the last seconds: a level that wanders is known as well as is said. */
    @Tag(Gear.THOROUGH)
    @ParameterizedTest
    @MethodSource("unsteady")
    void a_level_that_never_stands_still_is_near_the_truth_or_as_near_as_is_said(String name) {
        List<Off> offs = RiseAccuracyTable.offs(name, Gear.of(3, 8), Sampling.AT_20_HZ);

        assertThat(offs).hasSize(Gear.of(3, 8));
        assertThat(offs.stream().filter(off -> !Double.isNaN(off.topOff())))
                .hasSizeGreaterThan(Gear.of(1, 4))
                .allMatch(off -> Math.abs(off.topOff()) < Math.max(1.5, off.topDoubt()));
    }
}
