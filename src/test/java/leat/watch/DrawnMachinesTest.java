package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import leat.Gear;
import leat.rule.Grade;
import leat.watch.DrawnCase.Verdict;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Machines of the bench with parameters drawn by chance that nobody tuned to. What gauges without
 * noise show grossly is said; sound runs are left alone. All machines are invented.
 */
@Tag(Gear.THOROUGH)
class DrawnMachinesTest {

    private static final long SEED = 1001;
    private static final int MACHINES = 12;
    private static final double LEAST_SAID = 0.95;
    private static final double MOST_WARNED = 0.005;
    private static final double MOST_ADVISED = 0.01;

    @Test
    void gross_troubles_are_said_and_sound_runs_are_left_alone() {
        DrawnMachines drawn = DrawnMachines.of(SEED, MACHINES);

        double said = drawn.gross(Verdict.SAID);
        double judged = said + drawn.gross(Verdict.SILENT) + drawn.gross(Verdict.WRONG);
        assertThat(judged).as("gross troubles").isGreaterThan(200);
        assertThat(said / judged).as("said of them").isGreaterThanOrEqualTo(LEAST_SAID);

        double runs = drawn.soundRuns();
        long warned = drawn.accused(Grade.WARNING);
        assertThat(warned / runs).as("sound runs with a WARNING").isLessThan(MOST_WARNED);
        assertThat((drawn.accused(Grade.ADVISORY) - warned) / runs)
                .as("sound runs with an ADVISORY")
                .isLessThan(MOST_ADVISED);
    }
}
