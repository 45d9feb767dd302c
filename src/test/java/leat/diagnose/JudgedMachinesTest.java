package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import leat.Gear;
import leat.diagnose.PlayedRun.Make;
import leat.watch.DrawnObservations;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Machines of the bench that tuning never saw, each with all its troubles, played through a watch.
 * The whole table is printed by {@link ConfusionTable}; here only that it has not come to harm.
 */
class JudgedMachinesTest {

    private static final int KNOWN = 10;

    @Test
    void what_shows_grossly_is_called_by_its_name_and_sound_runs_are_left_alone() {
        List<PlayedRun> played = DrawnObservations.playLittle(MachinesFor.JUDGING.first() + 1, 0);

        ConfusionTable table = ConfusionTable.of(Example.single(played, KNOWN, 3));

        assertThat(table.grossRight()).isGreaterThan(0.8);
        assertThat(table.accused()).isZero();
    }

    @Test
    @Tag(Gear.THOROUGH)
    void so_it_is_on_more_machines() {
        ConfusionTable table = table(8, 2, Make.BENCH);

        assertThat(table.grossRight()).isGreaterThan(0.88);
        assertThat(table.accused()).isLessThanOrEqualTo(4);
    }

    @Test
    @Tag(Gear.THOROUGH)
    void and_on_machines_of_another_model() {
        ConfusionTable table = table(4, 2, Make.ROUGH);

        assertThat(table.grossRight()).isGreaterThan(0.82);
    }

    private static ConfusionTable table(int machines, int runs, Make make) {
        List<PlayedRun> played = new ArrayList<>();
        for (int i = 0; i < machines; i++) {
            // numbers that the published table does not use
            played.addAll(DrawnObservations.play(MachinesFor.JUDGING.first() + 1, i, make, runs));
        }
        return ConfusionTable.of(Example.single(played, KNOWN, 3));
    }
}
