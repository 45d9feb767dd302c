package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class InletGaugeTest {

    private static final Observation NO_INLET =
            seen(Figure.absent(Absence.NO_INLET_GAUGE), Figure.absent(Absence.NO_INLET_GAUGE));

    private static Observation seen(double restPsi, double runningPsi) {
        return seen(Figure.of(restPsi), Figure.of(runningPsi));
    }

    private static Observation seen(Figure rest, Figure running) {
        return Observation.at(1_000_000)
                .with(
                        new Startup(
                                1_000_000,
                                16_000_000,
                                Map.of(Measurand.INLET_REST, rest),
                                List.of(),
                                true))
                .with(
                        new Run(
                                1_000_000,
                                61_000_000,
                                true,
                                Map.of(Measurand.INLET_RUNNING, running)));
    }

    @ParameterizedTest
    @CsvSource({
        // what is drawn lets it sag before the valve; the shut valve lets it fall behind it
        "60, 55, BEFORE_VALVE",
        "60, 20, BEFORE_VALVE",
        "55, 55, BEFORE_VALVE",
        "0.3, 55, BEHIND_VALVE",
        "20, 55, BEHIND_VALVE",
        // half of it, and either side of that
        "27.4, 55, BEHIND_VALVE",
        "27.5, 55, BEFORE_VALVE",
        // a zero that is off by some psi
        "-2, 55, BEHIND_VALVE"
    })
    void a_gauge_that_falls_at_rest_sits_behind_the_valve(
            double restPsi, double runningPsi, InletGauge expected) {
        assertThat(InletGauge.seenIn(List.of(seen(restPsi, runningPsi)))).isEqualTo(expected);
    }

    @Test
    void of_a_machine_without_one_none_is_seen() {
        assertThat(InletGauge.seenIn(List.of())).isEqualTo(InletGauge.NONE);
        assertThat(InletGauge.seenIn(List.of(Observation.at(1), NO_INLET)))
                .isEqualTo(InletGauge.NONE);
    }

    /** Where only one of the two levels was seen nothing can be compared, but there is a gauge. */
    @Test
    void a_gauge_that_was_seen_but_in_one_state_is_taken_to_sit_before_the_valve() {
        Figure unseen = Figure.absent(Absence.NO_INLET_GAUGE);

        assertThat(InletGauge.seenIn(List.of(seen(Figure.of(0.3), unseen))))
                .isEqualTo(InletGauge.BEFORE_VALVE);
        assertThat(InletGauge.seenIn(List.of(seen(unseen, Figure.of(55)))))
                .isEqualTo(InletGauge.BEFORE_VALVE);
    }

    @Test
    void what_both_levels_showed_is_not_lost_by_one_that_was_not_seen_since() {
        List<Observation> seen = new ArrayList<>();
        seen.add(seen(0.3, 55));
        seen.add(Observation.at(2));
        seen.add(seen(Figure.absent(Absence.NO_INLET_GAUGE), Figure.of(55)));
        seen.add(NO_INLET);

        assertThat(InletGauge.seenIn(seen)).isEqualTo(InletGauge.BEHIND_VALVE);
    }

    @Test
    void a_gauge_that_was_moved_is_where_the_newest_start_shows_it() {
        List<Observation> moved = new ArrayList<>(List.of(seen(0.3, 55), seen(60, 55)));
        assertThat(InletGauge.seenIn(moved)).isEqualTo(InletGauge.BEFORE_VALVE);

        Collections.reverse(moved);
        assertThat(InletGauge.seenIn(moved)).isEqualTo(InletGauge.BEHIND_VALVE);
    }
}
