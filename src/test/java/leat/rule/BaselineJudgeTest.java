package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.absence.Absence;
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
                    Measurand.DROP, new Usual(3.5, 0.25, 10),
                    Measurand.BOOST_RATE, new Usual(90, 3, 10),
                    Measurand.DEAD, new Usual(0.7, 0.05, 10),
                    Measurand.FILTER_LOSS, new Usual(2, 0.25, 10));

    /** As {@link #USUAL}, with both levels told apart. */
    private static final Map<Measurand, Usual> BOTH_LEVELS = bothLevels();

    private static final Map<Measurand, Usual> RUNS =
            Map.of(
                    Measurand.LOADED, new Usual(97, 1, 9),
                    Measurand.UNLOADED, new Usual(104, 1, 9),
                    Measurand.INLET_RUNNING, new Usual(39, 0.4, 9));

    private static Map<Measurand, Usual> bothLevels() {
        Map<Measurand, Usual> both = new EnumMap<>(USUAL);
        both.put(Measurand.TOP, new Usual(104, 1, 10));
        both.put(Measurand.UNLOADED, new Usual(104, 1, 10));
        both.put(Measurand.LOADED, new Usual(98, 1, 10));
        both.put(Measurand.FALL, new Usual(3.6, 0.2, 9));
        return both;
    }

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

    private Baseline baseline = new Baseline(1, List.of(1L, 2L, 3L), USUAL);

    /** A baseline that knows both levels, the runs and the stops. */
    private void knowing(Map<Measurand, Usual> usual) {
        baseline = new Baseline(1, List.of(1L, 2L, 3L), usual, RUNS);
    }

    /** Gives the judge so many starts that are as usual but for one number. */
    private List<Remark> starts(int count, Measurand measurand, Figure figure) {
        return starts(count, Map.of(measurand, figure));
    }

    private List<Remark> starts(int count, Map<Measurand, Figure> otherwise) {
        List<Remark> unusual = List.of();
        for (int i = 0; i < count; i++) {
            Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
            baseline.figures().forEach((m, usual) -> figures.put(m, Figure.of(usual.median())));
            figures.putAll(otherwise);
            Startup startup =
                    new Startup(
                            startedMicros, startedMicros + 13_000_000, figures, List.of(), true);
            startedMicros += 600_000_000;
            unusual = judge.judge(startup, baseline, findings);
        }
        return unusual;
    }

    private void run(boolean over, Map<Measurand, Double> numbers) {
        Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
        numbers.forEach((measurand, value) -> figures.put(measurand, Figure.of(value)));
        judge.judge(
                new Run(startedMicros, startedMicros + 300_000_000, over, figures),
                baseline,
                findings);
    }

    private static Map<Measurand, Double> under(double loadedPsi, double inletPsi) {
        return Map.of(Measurand.LOADED, loadedPsi, Measurand.INLET_RUNNING, inletPsi);
    }

    private void stop(Figure fall) {
        judge.judge(
                new RestSpell(
                        startedMicros + 400_000_000,
                        startedMicros + 420_000_000,
                        Figure.of(0),
                        Figure.of(42),
                        fall,
                        true),
                baseline,
                findings);
    }

    @ParameterizedTest
    @CsvSource({
        "TOP,           94.0, 92.9, 'ADVISORY boosted reached 92.9 psi, usually 100.0 psi, 7 % less'",
        "RISE,          2.33, 2.35, 'ADVISORY rise 10-90 % from rest 2.35 s, usually 1.30 s, 81 % more'",
        "TIME_TO_LEVEL, 1.19, 1.21, 'ADVISORY 10 % to the fixed level 1.21 s, usually 0.80 s, 51 % more'",
        "INLET_SAG,     6.9,  7.1,  'ADVISORY inlet lost while running 7.1 psi, usually 3.0 psi, 4.1 psi more'",
        "DROP,          5.9,  6.1,  'ADVISORY drop when strokes begin 6.1 psi, usually 3.5 psi, 2.6 psi more'",
        "TOP,           109.9, 110.1, 'ADVISORY boosted reached 110.1 psi, usually 100.0 psi, 10 % more'",
        "BOOST_RATE,    50,   49,   'ADVISORY climb from inlet 49.0 psi/s, usually 90.0 psi/s, 46 % less'",
        "DEAD,          0.99, 1.01, 'ADVISORY start to first movement 1.01 s, usually 0.70 s, 0.31 s more'",
        "FILTER_LOSS,   5.9,  6.1,  'ADVISORY lost over the filters 6.1 psi, usually 2.0 psi, 4.1 psi more'"
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
        starts(2, Measurand.DROP, Figure.of(7));
        starts(5, Measurand.DROP, Figure.absent(Absence.NO_STROKES_SEEN));
        List<String> before = List.copyOf(told);
        starts(1, Measurand.DROP, Figure.of(7));

        starts(5, Measurand.DROP, Figure.absent(Absence.NO_STROKES_SEEN));

        assertThat(before).isEmpty();
        assertThat(told).hasSize(1);
    }

    @Test
    void starts_that_differ_each_in_another_way_are_not_told() {
        starts(2, Measurand.DROP, Figure.of(7));
        starts(2, Measurand.RISE, Figure.of(2.8));

        List<Remark> unusual = starts(2, Measurand.INLET_SAG, Figure.of(9));

        assertThat(told).isEmpty();
        assertThat(unusual)
                .containsExactly(Remark.about(Measurand.INLET_SAG, Remark.Kind.UNUSUAL, 2, 3));
    }

    @Test
    void a_level_that_is_a_warning_is_one_after_three_starts_and_an_advisory_before() {
        starts(3, Measurand.TOP, Figure.of(84.9));

        assertThat(told)
                .containsExactly(
                        "ADVISORY boosted reached 84.9 psi, usually 100.0 psi, 15 % less;"
                                + " 2 starts running, against a baseline of 3 starts",
                        "WARNING boosted reached 84.9 psi, usually 100.0 psi, 15 % less;"
                                + " 3 starts running, against a baseline of 3 starts");
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
                                baseline.usual(Measurand.DROP).orElseThrow(), 1, Limits.DEFAULTS))
                .isEqualTo(9.5);
    }

    @ParameterizedTest
    @CsvSource({
        "LOADED,    91.2, 91.0, 'ADVISORY boosted under strokes 91.0 psi, usually 98.0 psi, 7 % less'",
        "LOADED,    83.4, 83.2, 'WARNING boosted under strokes 83.2 psi, usually 98.0 psi, 15 % less'",
        "LOADED,   107.7, 107.9, 'ADVISORY boosted under strokes 107.9 psi, usually 98.0 psi, 10 % more'",
        "UNLOADED,  96.8, 96.6, 'ADVISORY boosted before the strokes 96.6 psi, usually 104.0 psi, 7 % less'",
        "UNLOADED,  88.5, 88.3, 'WARNING boosted before the strokes 88.3 psi, usually 104.0 psi, 15 % less'",
        "UNLOADED, 114.3, 114.5, 'ADVISORY boosted before the strokes 114.5 psi, usually 104.0 psi, 10 % more'"
    })
    void each_level_is_compared_with_its_own_and_never_with_the_other(
            Measurand level, double within, double beyond, String words) {
        knowing(BOTH_LEVELS);
        starts(10, Map.of(level, Figure.of(within), Measurand.TOP, Figure.of(beyond)));
        List<String> before = told.stream().filter(text -> text.startsWith("WARN")).toList();
        told.clear();

        starts(3, level, Figure.of(beyond));

        assertThat(before).isEmpty();
        assertThat(told).last().asString().startsWith(words);
    }

    @Test
    void a_level_whose_kind_is_not_known_is_low_below_both_of_its_own_and_high_above_both() {
        knowing(BOTH_LEVELS);
        Figure unseen = Figure.absent(Absence.NO_STROKES_SEEN);

        starts(9, only(unseen, 98));
        starts(9, only(unseen, 92));
        starts(9, only(unseen, 104));
        starts(9, only(unseen, 112));
        List<String> between = List.copyOf(told);
        starts(3, only(unseen, 91));
        starts(1, only(unseen, 98));
        starts(3, only(unseen, 115));

        assertThat(between).isEmpty();
        assertThat(told)
                .extracting(text -> text.split(";")[0])
                .containsExactly(
                        "ADVISORY boosted reached 91.0 psi, usually 98.0 psi, 7 % less",
                        "cleared: as-usual",
                        "ADVISORY boosted reached 115.0 psi, usually 104.0 psi, 11 % more");
    }

    private static Map<Measurand, Figure> only(Figure unseen, double topPsi) {
        return Map.of(
                Measurand.LOADED, unseen,
                Measurand.UNLOADED, unseen,
                Measurand.TOP, Figure.of(topPsi));
    }

    @Test
    void a_top_above_both_of_its_own_levels_is_high_whatever_else_was_seen() {
        knowing(BOTH_LEVELS);
        Figure unseen = Figure.absent(Absence.NO_STROKES_SEEN);

        starts(
                3,
                Map.of(
                        Measurand.LOADED, unseen,
                        Measurand.UNLOADED, Figure.of(104),
                        Measurand.TOP, Figure.of(120)));

        assertThat(told).singleElement().asString().startsWith("ADVISORY boosted reached 120.0");
    }

    @Test
    void the_top_of_a_baseline_of_before_counts_as_the_level_under_strokes() {
        starts(9, Map.of(Measurand.LOADED, Figure.of(94), Measurand.TOP, Figure.of(104)));
        List<String> before = List.copyOf(told);

        starts(3, Map.of(Measurand.LOADED, Figure.of(92), Measurand.TOP, Figure.of(104)));

        assertThat(before).isEmpty();
        assertThat(told)
                .containsExactly(
                        "ADVISORY boosted under strokes 92.0 psi, usually 100.0 psi, 8 % less;"
                                + " 3 starts running, against a baseline of 3 starts");
    }

    @ParameterizedTest
    @CsvSource({
        "LOADED,        80, 77, 1", // 0.93 three times over is 78.8
        "LOADED,        86, 84, 2", // twice over 84.8
        "LOADED,        92, 90, 3",
        "LOADED,       117, 119, 2", // 1.1 twice over is 118.6
        "LOADED,       130, 131, 1",
        "FILTER_LOSS,  9.9, 10.1, 2",
        "FILTER_LOSS, 13.9, 14.1, 1",
        "BOOST_RATE,    28, 27, 2", // 0.55 twice over is 27.2
        "DEAD,        1.29, 1.31, 2",
        "DEAD,           3, 9, 2", // air in the line of one start never speaks at once
        "RISE,        4.20, 4.22, 2"
    })
    void fewer_starts_are_needed_the_more_times_over_the_limit_they_lie(
            Measurand measurand, double lessFar, double far, int needed) {
        knowing(BOTH_LEVELS);
        List<Integer> raisedAfter = new ArrayList<>();
        for (double value : new double[] {lessFar, far}) {
            told.clear();
            starts(1, Map.of());
            told.clear();
            int starts = 0;
            while (told.isEmpty() && starts < 9) {
                starts(1, measurand, Figure.of(value));
                starts++;
            }
            raisedAfter.add(starts);
        }

        assertThat(raisedAfter.get(1)).isEqualTo(needed);
        assertThat(raisedAfter.get(0)).isGreaterThanOrEqualTo(needed);
    }

    @Test
    void a_number_that_is_far_off_only_within_its_own_doubt_is_given_no_credit_for_that() {
        knowing(BOTH_LEVELS);

        starts(2, Measurand.LOADED, Figure.of(77, 9));
        List<String> two = List.copyOf(told);
        starts(1, Measurand.LOADED, Figure.of(77, 9));
        List<String> three = List.copyOf(told);
        starts(1, Measurand.LOADED, Figure.of(98));
        starts(9, Measurand.LOADED, Figure.of(77, 22));

        assertThat(two).isEmpty();
        assertThat(three).hasSize(1);
        assertThat(told).last().isEqualTo("cleared: as-usual");
    }

    @Test
    void a_start_within_the_limits_clears_however_little_it_is_known() {
        knowing(BOTH_LEVELS);
        starts(3, Measurand.LOADED, Figure.of(90));

        starts(1, Measurand.LOADED, Figure.of(97.9, 2));

        assertThat(told).last().isEqualTo("cleared: as-usual");
    }

    @Test
    void a_level_may_be_lower_by_what_the_inlet_is_lower_and_no_lower() {
        knowing(BOTH_LEVELS);
        starts(9, Map.of(Measurand.LOADED, Figure.of(87), inlet(), Figure.of(34)));
        List<String> explained = List.copyOf(told);

        starts(3, Map.of(Measurand.LOADED, Figure.of(86), inlet(), Figure.of(34)));

        assertThat(explained).isEmpty();
        assertThat(told).singleElement().asString().startsWith("ADVISORY boosted under strokes 86");
    }

    @Test
    void a_higher_inlet_is_no_excuse_for_a_low_level_but_one_for_a_high_level() {
        knowing(BOTH_LEVELS);
        starts(9, Map.of(Measurand.LOADED, Figure.of(113), inlet(), Figure.of(45)));
        List<String> high = List.copyOf(told);

        starts(3, Map.of(Measurand.LOADED, Figure.of(90), inlet(), Figure.of(59)));

        assertThat(high).isEmpty();
        assertThat(told).singleElement().asString().startsWith("ADVISORY boosted under strokes 90");
    }

    private static Measurand inlet() {
        return Measurand.INLET_RUNNING;
    }

    @Test
    void a_machine_without_an_inlet_gauge_is_compared_all_the_same() {
        Map<Measurand, Usual> alone = new EnumMap<>(BOTH_LEVELS);
        alone.remove(Measurand.INLET_RUNNING);
        baseline = new Baseline(1, List.of(1L), alone);

        starts(3, Measurand.LOADED, Figure.of(90));

        assertThat(told).hasSize(1);
    }

    @ParameterizedTest
    @CsvSource({
        "2.2, 2.1, 'ADVISORY fall after the stop, 90 to 40 % 2.10 s, usually 3.60 s, 42 % less'",
        "7.1, 7.3, 'ADVISORY fall after the stop, 90 to 40 % 7.30 s, usually 3.60 s, 103 % more'"
    })
    void a_stop_after_which_the_pressure_falls_otherwise_is_told_whatever_the_starts_show(
            double within, double beyond, String words) {
        knowing(BOTH_LEVELS);
        for (int i = 0; i < 9; i++) {
            stop(Figure.of(within));
        }
        for (int i = 0; i < 3; i++) {
            starts(1, Map.of());
            stop(Figure.of(beyond));
        }
        starts(1, Map.of());
        stop(Figure.absent(Absence.DID_NOT_FALL));
        List<String> standing = List.copyOf(told);

        stop(Figure.of(within));

        assertThat(standing)
                .containsExactly(words + "; 3 starts running, against a baseline of 3 starts");
        assertThat(told).last().isEqualTo("cleared: as-usual");
    }

    @Test
    void a_run_whose_level_sinks_after_a_start_as_usual_is_told_after_three_of_them() {
        knowing(BOTH_LEVELS);
        for (int i = 0; i < 3; i++) {
            starts(1, Map.of());
            run(false, under(89, 39));
            run(true, under(89, 39));
        }
        List<String> standing = List.copyOf(told);

        run(true, under(97, 39));

        assertThat(standing)
                .containsExactly(
                        "ADVISORY boosted under strokes 89.0 psi, usually 97.0 psi, 8 % less;"
                                + " over the run; 3 starts running, against a baseline of 3"
                                + " starts");
        assertThat(told).last().isEqualTo("cleared: as-usual");
    }

    @Test
    void a_run_that_lasts_is_told_at_once_when_it_is_far_off_and_is_one_run_all_the_same() {
        knowing(BOTH_LEVELS);
        run(false, under(97, 39));
        run(false, under(85, 39));
        List<String> near = List.copyOf(told);
        run(false, under(75, 39));
        run(false, under(75, 39));
        List<String> far = List.copyOf(told);

        run(true, under(75, 39));

        assertThat(near).isEmpty();
        assertThat(far)
                .containsExactly(
                        "ADVISORY boosted under strokes 75.0 psi, usually 97.0 psi, 23 % less;"
                                + " over the run; one start, by far, against a baseline of 3"
                                + " starts");
        assertThat(told).isEqualTo(far);
    }

    @Test
    void a_run_is_compared_with_starts_where_no_runs_were_learned() {
        baseline = new Baseline(1, List.of(1L), BOTH_LEVELS);

        for (int i = 0; i < 3; i++) {
            run(true, under(90, 39));
        }

        assertThat(told).singleElement().asString().contains("usually 98.0 psi");
    }

    @Test
    void a_start_as_usual_does_not_clear_what_its_runs_show() {
        knowing(BOTH_LEVELS);
        for (int i = 0; i < 3; i++) {
            run(true, under(89, 39));
        }

        starts(9, Map.of());

        assertThat(told).hasSize(1);
    }

    /** 0.3 usually, spread 0.1: an unrest beyond 0.3 + 3 times 0.8 speaks by itself. */
    @Test
    void unrest_speaks_after_one_start_and_a_wander_whose_inlet_is_not_seen_after_three() {
        Map<Measurand, Usual> usual = new EnumMap<>(USUAL);
        usual.put(Measurand.UNREST, new Usual(0.3, 0.1, 10));
        usual.put(Measurand.WANDER, new Usual(0.3, 0.1, 10));
        knowing(usual);
        Figure none = Figure.absent(Absence.NO_INLET_GAUGE);

        starts(2, Map.of(Measurand.UNREST, none, Measurand.WANDER, Figure.of(9)));
        assertThat(told).isEmpty();
        starts(1, Measurand.UNREST, Figure.of(0.3));
        starts(3, Map.of(Measurand.UNREST, none, Measurand.WANDER, Figure.of(1.8)));
        assertThat(told).isEmpty();
        starts(1, Measurand.UNREST, Figure.of(2.8));
        assertThat(told).hasSize(1);
        starts(1, Measurand.UNREST, Figure.of(0.3));
        starts(3, Map.of(Measurand.UNREST, none, Measurand.WANDER, Figure.of(2)));
        assertThat(told).hasSize(3);
    }

    /** A baseline that was learned before unrest was measured knows the whole wander alone. */
    @Test
    void unrest_is_held_against_the_wander_of_a_baseline_of_before() {
        Map<Measurand, Usual> usual = new EnumMap<>(USUAL);
        usual.put(Measurand.WANDER, new Usual(1.3, 0.1, 10));
        knowing(usual);

        starts(1, Measurand.UNREST, Figure.of(3.6));
        assertThat(told).isEmpty();
        starts(1, Measurand.UNREST, Figure.of(3.8));
        assertThat(told).hasSize(1);
    }
}
