package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.phase.Phase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Where each finding about starts comes and goes, and after how many of them, found by trying under
 * {@link OwnLimits}. What is expected is written from what the settings table says of each limit
 * ({@code config/settings.md}, phrases {@code meaning.*}), not from the judges; the figures
 * themselves are facts of the trade or own choice, as that table says.
 */
class StartEdgesTest {

    /**
     * What is judged of each start: the number that is tried, what is usual of it, how that
     * scatters, whether the machine's own is known.
     */
    static final String STARTS =
            """
            RISE     | ADVISORY | RISE          | 1   | 60 | 5   | 0.1 | false | rise.advisory
            RISE     | WARNING  | RISE          | 1   | 60 | 5   | 0.1 | false | rise.warning
            RISE     | ADVISORY | RISE          | 1   | 60 | 1   | 0.1 | true  | rise.advisory
            RISE     | WARNING  | RISE          | 1   | 60 | 1   | 0.1 | true  | rise.warning
            RISE     | ADVISORY | RISE          | 1   | 60 | 5   | 0.1 | true  | baseline.rise_advisory * 5
            RISE     | WARNING  | RISE          | 1   | 60 | 5   | 0.1 | true  | baseline.rise_warning * 5
            BASELINE | ADVISORY | RISE          | 1   | 60 | 5   | 0.1 | true  | baseline.rise * 5
            BASELINE | ADVISORY | TIME_TO_LEVEL | 1   | 60 | 2   | 0.1 | true  | baseline.time_to_level * 2
            BASELINE | ADVISORY | TOP           | 100 | 50 | 100 | 0.1 | true  | baseline.top_advisory * 100
            BASELINE | WARNING  | TOP           | 100 | 50 | 100 | 0.1 | true  | baseline.top_warning * 100
            BASELINE | ADVISORY | TOP           | 100 | 50 | 100 | 8   | true  | 100 - baseline.spreads * 8
            BASELINE | ADVISORY | TOP           | 100 | 150 | 100 | 0.1 | true | baseline.top_high * 100
            BASELINE | ADVISORY | LOADED        | 98 | 50 | 98 | 0.1 | true   | baseline.top_advisory * 98
            BASELINE | WARNING  | UNLOADED      | 104 | 50 | 104 | 0.1 | true | baseline.top_warning * 104
            BASELINE | ADVISORY | UNLOADED      | 104 | 150 | 104 | 0.1 | true | baseline.top_high * 104
            BASELINE | ADVISORY | BOOST_RATE    | 90  | 20 | 90  | 0.1 | true  | baseline.boost_rate * 90
            BASELINE | ADVISORY | DEAD          | 1   | 60 | 1   | 0.1 | true  | 1 + baseline.dead_time
            BASELINE | ADVISORY | FILTER_LOSS   | 2   | 60 | 2   | 0.1 | true  | 2 + baseline.filter_loss
            BASELINE | ADVISORY | INLET_SAG     | 3   | 60 | 3   | 0.1 | true  | 3 + baseline.inlet_sag
            BASELINE | ADVISORY | DROP          | 3   | 60 | 3.5 | 0.1 | true  | 3.5 + baseline.drop
            BASELINE | ADVISORY | UNREST        | 0.2 | 30 | 0.4 | 0.1 | true  | 0.4 + baseline.wander
            BASELINE | ADVISORY | DROP          | 3   | 60 | 3.5 | 2   | true  | 3.5 + baseline.spreads * 2
            """;

    /** A start that had not risen, and has since; what is tried, and where that counts as risen. */
    static final String RISEN_LATE =
            """
            BOOSTED_OF_12 | 60 | 120 | level.set - level.tolerance
            RATIO         | 1  | 3   | ratio.critical_clear
            RATIO_OF_TWO  | 8  | 40  | ratio.min_inlet
            """;

    /** Limits that tests here look at by name. */
    static final String ALONE =
            """
            baseline.inlet_same baseline.starts baseline.starts_running rise.critical
            rise.relaxed_critical rise.relaxed_starts inlet.critical
            """;

    private static final int LONG_ENOUGH = 80;

    private static final Map<Measurand, Double> ORDINARY =
            Map.of(
                    Measurand.TOP, 100.0,
                    Measurand.INLET_RUNNING, 39.0,
                    Measurand.RATIO, 2.5,
                    Measurand.RISE, 1.0,
                    Measurand.TIME_TO_LEVEL, 2.0,
                    Measurand.INLET_SAG, 3.0,
                    Measurand.DROP, 3.5);

    /** An ordinary start but for one number. */
    private static Map<Measurand, Figure> start(Measurand tried, double value) {
        Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
        ORDINARY.forEach((measurand, ordinary) -> figures.put(measurand, Figure.of(ordinary)));
        figures.put(tried, Figure.of(value));
        return figures;
    }

    /** As {@link #ORDINARY}, and of one number this. */
    private static Baseline usual(Measurand tried, double median, double scatter) {
        Map<Measurand, Usual> figures = new EnumMap<>(Measurand.class);
        ORDINARY.forEach((measurand, value) -> figures.put(measurand, new Usual(value, 0.1, 6)));
        figures.put(tried, new Usual(median, scatter, 6));
        return new Baseline(1, List.of(1L), figures);
    }

    private static void starts(Stand stand, int count, Map<Measurand, Figure> figures) {
        for (int i = 0; i < count; i++) {
            stand.start(figures, true);
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = STARTS)
    void a_finding_about_starts_comes_and_goes_at_its_own_limit(
            Rule rule,
            Grade grade,
            Measurand tried,
            double good,
            double bad,
            double median,
            double scatter,
            boolean isKnown,
            String limit) {
        Optional<Baseline> baseline =
                Optional.of(usual(tried, median, scatter)).filter(known -> isKnown);
        double comes =
                Edge.between(
                        good,
                        bad,
                        value -> {
                            Stand stand = new Stand(OwnLimits.ALL, baseline);
                            starts(stand, 10, start(tried, value));
                            return stand.stands(rule, grade);
                        });
        double goes =
                Edge.between(
                        bad,
                        good,
                        value -> {
                            Stand stand = new Stand(OwnLimits.ALL, baseline);
                            starts(stand, 10, start(tried, bad));
                            starts(stand, 10, start(tried, value));
                            return !stand.stands(rule, grade);
                        });

        assertThat(List.of(comes, goes))
                .allSatisfy(at -> assertThat(at).isCloseTo(OwnLimits.sum(limit), within(1e-4)));
    }

    /** What is tried of each stop: the fall, good and bad, against one of 4 s. */
    static final String STOPS =
            """
            4 | 0.1 | baseline.fall_quick * 4
            4 | 30  | baseline.fall_slow * 4
            """;

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = STOPS)
    void a_finding_about_stops_comes_at_its_own_limit(double good, double bad, String limit) {
        double comes =
                Edge.between(
                        good,
                        bad,
                        fallSeconds -> {
                            Stand stand =
                                    new Stand(
                                            OwnLimits.ALL,
                                            Optional.of(usual(Measurand.FALL, 4, 0.1)));
                            for (int i = 0; i < 10; i++) {
                                stand.rest(Figure.of(fallSeconds));
                            }
                            return stand.stands(Rule.BASELINE, Grade.ADVISORY);
                        });

        assertThat(comes).isCloseTo(OwnLimits.sum(limit), within(1e-4));
    }

    @ParameterizedTest
    @CsvSource({"150, 39, 60, 1", "50, 39, 10, -1"})
    void a_level_is_compared_only_while_the_inlet_does_not_explain_it(
            double level, double same, double other, double side) {
        double compared =
                Edge.between(
                        other,
                        same,
                        inletPsi -> {
                            Stand stand =
                                    new Stand(
                                            OwnLimits.ALL,
                                            Optional.of(usual(Measurand.DROP, 3.5, 0.1)));
                            Map<Measurand, Figure> far = start(Measurand.TOP, level);
                            far.put(Measurand.INLET_RUNNING, Figure.of(inletPsi));
                            starts(stand, 10, far);
                            return stand.stands(Rule.BASELINE, Grade.ADVISORY);
                        });

        assertThat((compared - same) * side)
                .isCloseTo(OwnLimits.of("baseline.inlet_same"), within(1e-4));
    }

    @Test
    void so_many_starts_running_must_differ_and_so_many_good_ones_make_the_baseline() {
        Stand known = new Stand(OwnLimits.ALL, Optional.of(usual(Measurand.DROP, 3.5, 0.1)));
        Stand learns = new Stand();
        Map<Measurand, Figure> good = start(Measurand.DROP, 3.5);

        int running =
                Edge.secondsUntil(
                        () -> known.stands(Rule.BASELINE, Grade.ADVISORY),
                        () -> known.start(start(Measurand.DROP, 8), true));
        int learned = Edge.secondsUntil(() -> !learns.learned.isEmpty(), () -> learns.learn(good));

        assertThat(running).isEqualTo((int) OwnLimits.of("baseline.starts_running"));
        assertThat(learned).isEqualTo((int) OwnLimits.of("baseline.starts"));
    }

    @Test
    void a_start_that_lies_twice_over_the_limit_counts_for_two() {
        Stand known = new Stand(OwnLimits.ALL, Optional.of(usual(Measurand.DROP, 3.5, 0.1)));

        int running =
                Edge.secondsUntil(
                        () -> known.stands(Rule.BASELINE, Grade.ADVISORY),
                        () -> known.start(start(Measurand.DROP, 20), true));

        assertThat(running).isEqualTo((int) OwnLimits.of("baseline.starts_running") / 2);
    }

    @Test
    void so_many_starts_after_service_have_their_own_deadline_and_a_slow_rise_is_only_noted() {
        Stand stand = new Stand();
        stand.rules().serviced(1);
        double before = stand.rules().riseDeadlineMicros() / 1e6;

        int noted =
                Edge.secondsUntil(
                        () -> stand.stands(Rule.RISE, Grade.ADVISORY),
                        () -> stand.start(start(Measurand.RISE, 60), true));

        assertThat(before).isEqualTo(OwnLimits.of("rise.relaxed_critical"));
        assertThat(noted - 1).isEqualTo((int) OwnLimits.of("rise.relaxed_starts"));
        assertThat(stand.rules().riseDeadlineMicros() / 1e6)
                .isEqualTo(OwnLimits.of("rise.critical"));
    }

    @ParameterizedTest
    @CsvSource({"false, rise.critical", "true, rise.relaxed_critical"})
    void a_start_that_has_not_risen_names_the_deadline_that_it_missed_then_and_when_it_rises_late(
            boolean isServiced, String deadline) {
        Stand stand = new Stand();
        if (isServiced) {
            stand.rules().serviced(1);
        }
        stand.turn(Phase.STEADY).start(start(Measurand.RATIO, 1), false);
        Finding missed = stand.finding(Rule.RISE).orElseThrow();
        Shown.RATIO.hold(stand, 2, LONG_ENOUGH);

        Finding late = stand.finding(Rule.RISE).orElseThrow();

        assertThat(List.of(missed.grade(), late.grade()))
                .containsExactly(Grade.CRITICAL, Grade.WARNING);
        assertThat(List.of(missed.limit(), late.limit())).containsOnly(OwnLimits.of(deadline));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = RISEN_LATE)
    void a_pressure_that_has_not_risen_counts_as_risen_from_its_own_limit_on(
            Shown shown, double not, double risen, String limit) {
        double counts =
                Edge.between(
                        not,
                        risen,
                        value -> {
                            Stand stand = notRisen();
                            shown.hold(stand, value, LONG_ENOUGH);
                            return !stand.stands(Rule.RISE, Grade.CRITICAL);
                        });
        Stand stand = notRisen();
        int after =
                Edge.secondsUntil(
                        () -> !stand.stands(Rule.RISE, Grade.CRITICAL),
                        () -> shown.hold(stand, risen, 1));

        assertThat(counts).isCloseTo(OwnLimits.sum(limit), within(1e-4));
        assertThat(after).isEqualTo(1 + (int) OwnLimits.of("ratio.off_delay"));
    }

    private static Stand notRisen() {
        Stand stand = new Stand().turn(Phase.STEADY);
        stand.start(start(Measurand.RATIO, 1), false);
        return stand;
    }

    @Test
    void a_start_that_has_not_risen_is_the_inlets_affair_below_its_critical_limit() {
        double called =
                Edge.between(
                        0,
                        40,
                        inletPsi -> {
                            Stand stand = new Stand();
                            stand.start(start(Measurand.INLET_RUNNING, inletPsi), false);
                            return stand.stands(Rule.RISE, Grade.CRITICAL);
                        });

        assertThat(called).isCloseTo(OwnLimits.of("inlet.critical"), within(1e-4));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            textBlock =
                    """
                    RATIO | 3   | 0.5 | 80 | 1 | ratio.critical
                    TOP   | 120 | 60  | 80 | 1 | level.set - level.tolerance
                    """)
    void a_start_shows_no_boost_below_the_ratio_and_the_level_at_once(
            Measurand tried, double good, double bad, double top, double ratio, String limit) {
        double noBoost =
                Edge.between(
                        good,
                        bad,
                        value -> {
                            Map<Measurand, Figure> start = start(Measurand.TOP, top);
                            start.put(Measurand.RATIO, Figure.of(ratio));
                            start.put(tried, Figure.of(value));
                            return new Stand().start(start, true).outcome()
                                    == StartupVerdict.Outcome.NO_BOOST;
                        });

        assertThat(noBoost).isCloseTo(OwnLimits.sum(limit), within(1e-4));
    }

    @Test
    void a_start_without_a_rise_time_is_good_when_its_whole_climb_was_fast_enough() {
        double good =
                Edge.between(
                        60,
                        0,
                        seconds -> {
                            Map<Measurand, Figure> start = start(Measurand.START_TO_90, seconds);
                            start.remove(Measurand.RISE);
                            return new Stand().start(start, true).outcome()
                                    == StartupVerdict.Outcome.GOOD;
                        });

        assertThat(good).isCloseTo(OwnLimits.of("rise.advisory"), within(1e-4));
    }
}
