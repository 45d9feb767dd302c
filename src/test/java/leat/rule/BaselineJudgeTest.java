package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import leat.measure.Absence;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.report.Json;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Starts with invented numbers against an invented baseline. */
class BaselineJudgeTest {

    private static final Map<Measurand, Usual> USUAL =
            Map.of(
                    Measurand.TOP, new Usual(100, 1, 10),
                    Measurand.INLET_RUNNING, new Usual(39, 0.4, 10),
                    Measurand.RISE, new Usual(1.3, 0.05, 10),
                    Measurand.TIME_TO_LEVEL, new Usual(0.8, 0.05, 10),
                    Measurand.INLET_SAG, new Usual(3, 0.25, 10),
                    Measurand.DROP, new Usual(3.5, 0.25, 10));

    private final List<String> told = new ArrayList<>();
    private final CriticalFindings findings =
            new CriticalFindings(
                    new Findings() {
                        @Override
                        public void found(Finding f) {
                            told.add(f.grade() + " " + Json.IN_PSI.remarks(f));
                        }

                        @Override
                        public void cleared(
                                Rule rule,
                                Channel c,
                                long at,
                                Figure in,
                                Figure out,
                                List<Remark> now) {
                            now.forEach(remark -> told.add("cleared: " + remark.kind().key()));
                        }
                    });
    private final BaselineJudge judge = new BaselineJudge(Limits.DEFAULTS);
    private long startedMicros = 1_767_592_800_000_000L;

    /** Gives the judge so many starts that are as usual but for one number. */
    private List<Remark> starts(int count, Measurand measurand, Figure figure) {
        List<Remark> unusual = List.of();
        for (int i = 0; i < count; i++) {
            Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
            USUAL.forEach((m, usual) -> figures.put(m, Figure.of(usual.median())));
            figures.put(measurand, figure);
            Startup startup =
                    new Startup(
                            startedMicros, startedMicros + 13_000_000, figures, List.of(), true);
            startedMicros += 600_000_000;
            unusual = judge.judge(startup, new Baseline(1, List.of(1L, 2L, 3L), USUAL), findings);
        }
        return unusual;
    }

    @ParameterizedTest
    @CsvSource({
        "TOP,           94.0, 92.9, 'ADVISORY boosted reached 92.9 psi, usually 100.0 psi, 7 % less'",
        "TOP,           94.0, 84.9, 'WARNING boosted reached 84.9 psi, usually 100.0 psi, 15 % less'",
        "RISE,          2.33, 2.35, 'ADVISORY rise 10-90 % from rest 2.35 s, usually 1.30 s, 81 % more'",
        "TIME_TO_LEVEL, 1.19, 1.21, 'ADVISORY 10 % to the fixed level 1.21 s, usually 0.80 s, 51 % more'",
        "INLET_SAG,     6.9,  7.1,  'ADVISORY inlet lost while running 7.1 psi, usually 3.0 psi, 4.1 psi more'",
        "DROP,          5.9,  6.1,  'ADVISORY drop when strokes begin 6.1 psi, usually 3.5 psi, 2.6 psi more'"
    })
    void three_starts_beyond_the_threshold_are_told_and_any_number_within_it_is_not(
            Measurand measurand, double within, double beyond, String words) {
        starts(10, measurand, Figure.of(within));
        starts(2, measurand, Figure.of(beyond));
        List<String> before = List.copyOf(told);
        starts(1, measurand, Figure.of(beyond));

        starts(1, measurand, Figure.of(within));

        assertThat(before).isEmpty();
        assertThat(told)
                .containsExactly(
                        words + "; 3 starts running, against a baseline of 3 starts",
                        "cleared: as-usual");
    }

    @Test
    void a_start_without_the_number_neither_adds_to_a_run_nor_ends_it() {
        starts(2, Measurand.DROP, Figure.of(9));
        starts(5, Measurand.DROP, Figure.absent(Absence.NO_STROKES_SEEN));
        List<String> before = List.copyOf(told);
        starts(1, Measurand.DROP, Figure.of(9));

        starts(5, Measurand.DROP, Figure.absent(Absence.NO_STROKES_SEEN));

        assertThat(before).isEmpty();
        assertThat(told).hasSize(1);
    }

    @Test
    void starts_that_differ_each_in_another_way_are_not_told() {
        starts(2, Measurand.DROP, Figure.of(9));
        starts(2, Measurand.RISE, Figure.of(2.8));

        List<Remark> unusual = starts(2, Measurand.INLET_SAG, Figure.of(9));

        assertThat(told).isEmpty();
        assertThat(unusual)
                .containsExactly(Remark.about(Measurand.INLET_SAG, Remark.Kind.UNUSUAL, 2, 3));
    }

    @Test
    void a_level_that_falls_further_grows_and_one_that_recovers_a_little_eases() {
        starts(3, Measurand.TOP, Figure.of(92));
        starts(3, Measurand.TOP, Figure.of(80));
        starts(1, Measurand.TOP, Figure.of(90));

        starts(1, Measurand.TOP, Figure.of(98));

        assertThat(told)
                .extracting(text -> text.split(" ")[0])
                .containsExactly("ADVISORY", "WARNING", "ADVISORY", "cleared:");
    }

    @Test
    void a_number_that_scatters_by_nature_must_leave_its_own_scatter_too() {
        Map<Measurand, Usual> scattered = new EnumMap<>(USUAL);
        scattered.put(Measurand.DROP, new Usual(3.5, 2, 10));
        Baseline baseline = new Baseline(1, List.of(1L), scattered);

        assertThat(
                        Deviation.DROP.allowed(
                                baseline.usual(Measurand.DROP).orElseThrow(), Limits.DEFAULTS))
                .isEqualTo(9.5);
    }
}
