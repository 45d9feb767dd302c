package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The table of signs, and the fitted sizes beside it. */
class CauseTableTest {

    /** What only findings about signals tell, and what is left when nothing fits. */
    private static final Set<Cause> WITHOUT_ROW =
            EnumSet.of(
                    Cause.STUCK,
                    Cause.OPEN_LOOP,
                    Cause.LOOSE_LOOP,
                    Cause.CONFIGURATION,
                    Cause.UNKNOWN);

    @Test
    void every_cause_that_pressures_can_tell_has_a_row() {
        Set<Cause> told =
                CauseTable.rows().stream().map(CauseTable.Row::cause).collect(Collectors.toSet());

        assertThat(told)
                .containsExactlyInAnyOrderElementsOf(
                        EnumSet.complementOf(EnumSet.copyOf(WITHOUT_ROW)));
    }

    @Test
    void what_is_usual_for_a_machine_speaks_for_nothing_and_against_what_would_move_it() {
        double[] usual = Ramps.of(new Evidence(Feature.DROP, 4, 4, 0, 0, 0.7));

        assertThat(Arrays.copyOf(usual, Ramps.MEASURED)).containsOnly(0);
        assertThat(usual[Ramps.MEASURED]).isEqualTo(0.7);
        for (Weights.OfRow row : Weights.published().rows()) {
            for (Feature feature : Feature.values()) {
                double measured = row.pieces()[feature.ordinal()][Ramps.MEASURED];
                assertThat(measured).as(row.row().key() + " " + feature).isLessThanOrEqualTo(0);
                if (row.row().direction(feature) == CauseTable.Direction.NOT) {
                    assertThat(measured).as(row.row().key() + " " + feature).isZero();
                }
            }
        }
    }

    @Test
    void a_larger_difference_never_speaks_less_for_a_cause_that_makes_it() {
        for (Weights.OfRow row : Weights.published().rows()) {
            row.row()
                    .cells()
                    .forEach(
                            (feature, cell) -> {
                                double[] pieces = row.pieces()[feature.ordinal()];
                                if (cell.direction() == CauseTable.Direction.UP) {
                                    assertThat(Arrays.stream(pieces, 0, Ramps.PIECES))
                                            .as(row.row().key() + " " + feature)
                                            .allMatch(piece -> piece >= 0);
                                } else if (cell.direction() == CauseTable.Direction.DOWN) {
                                    assertThat(Arrays.stream(pieces, Ramps.PIECES, Ramps.MEASURED))
                                            .as(row.row().key() + " " + feature)
                                            .allMatch(piece -> piece >= 0);
                                }
                            });
        }
    }

    @Test
    void what_a_cause_does_not_move_never_speaks_for_it() {
        for (Weights.OfRow row : Weights.published().rows()) {
            for (Feature feature : Feature.values()) {
                if (row.row().direction(feature) == CauseTable.Direction.NOT) {
                    assertThat(Arrays.stream(row.pieces()[feature.ordinal()]))
                            .as(row.row().key() + " " + feature)
                            .allMatch(piece -> piece <= 0);
                }
            }
        }
    }
}
