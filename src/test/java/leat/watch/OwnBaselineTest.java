package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmEvent;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.report.Json;
import leat.rule.Baseline;
import leat.rule.StartupVerdict;
import leat.rule.StartupVerdict.Outcome;
import leat.rule.Usual;
import leat.signal.Instruction;
import leat.signal.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A machine judged against what is usual for itself. Every line here is invented. */
class OwnBaselineTest {

    private static final double LN_9 = Math.log(9);

    /** A start to a level, a run of 16 s, and a rest of 20 s. */
    private static Line start(Line line, double levelPsi, double riseSeconds) {
        return line.towards(levelPsi, riseSeconds / LN_9, 22).towards(0, 1, 25);
    }

    private static Line starts(Line line, int count, double levelPsi, double riseSeconds) {
        for (int i = 0; i < count; i++) {
            start(line, levelPsi, riseSeconds);
        }
        return line;
    }

    private static Line journal(Line line, Order.Entry entry) {
        return line.input(
                new Instruction(line.now(), "Kim", new Order.Journal(entry, "see the book")));
    }

    private static List<String> progress(Told told) {
        return told.learnings.stream().map(Json.IN_PSI::learning).toList();
    }

    @Test
    void ten_good_starts_make_the_baseline_of_a_machine_that_has_none() {
        Line line = Line.withSeed(1).at(0).hold(12);

        Told told = Told.by(starts(line, 10, 100, 1.3));

        assertThat(progress(told))
                .hasSize(9)
                .startsWith("no baseline yet: learning, 1 of 10")
                .endsWith("no baseline yet: learning, 9 of 10");
        Baseline baseline = told.baselines.get(0);
        assertThat(told.baselines).hasSize(1);
        assertThat(baseline.starts())
                .isEqualTo(told.startups.stream().map(Startup::startedAtMicros).toList());
        assertThat(baseline.learnedAtMicros()).isEqualTo(told.startups.get(9).measuredAtMicros());
        assertThat(baseline.usual(Measurand.RISE).orElseThrow().median()).isBetween(1.25, 1.35);
        assertThat(baseline.usual(Measurand.TOP).orElseThrow().median()).isBetween(99.8, 100.2);
        assertThat(baseline.usual(Measurand.TOP).orElseThrow().count()).isEqualTo(10);
        assertThat(told.alarms).isEmpty();
    }

    @Test
    void slow_starts_are_not_learned_from_and_a_bad_one_does_not_end_learning() {
        Line line = Line.withSeed(2).at(0).hold(12);
        starts(line, 5, 100, 1.3);
        starts(line, 2, 100, 4);

        Told told = Told.by(starts(line, 5, 100, 1.3));

        assertThat(told.baselines).hasSize(1);
        assertThat(told.baselines.get(0).starts())
                .hasSize(10)
                .doesNotContain(told.startups.get(5).startedAtMicros())
                .doesNotContain(told.startups.get(6).startedAtMicros());
    }

    @Test
    void
            after_service_the_old_baseline_is_out_of_date_and_the_starts_that_purge_air_do_not_count() {
        Line line = Line.withSeed(3).at(0).hold(12);
        starts(line, 10, 100, 1.3);
        journal(line, Order.Entry.SERVICED);
        starts(line, 3, 90, 2.5);

        Told told = Told.by(starts(line, 10, 92, 1.6));

        assertThat(told.baselines).hasSize(2);
        assertThat(told.baselines.get(1).starts())
                .containsExactlyElementsOf(
                        told.startups.subList(13, 23).stream()
                                .map(Startup::startedAtMicros)
                                .toList());
        assertThat(progress(told))
                .contains("no baseline, the machine was serviced: learning, 0 of 10")
                .contains("no baseline, the machine was serviced: learning, 9 of 10");
        assertThat(told.alarms).isEmpty();
    }

    @Test
    void a_command_begins_anew_with_the_next_start() {
        Line line = Line.withSeed(4).at(0).hold(12);
        starts(line, 4, 100, 1.3);
        journal(line, Order.Entry.LEARN);

        Told told = Told.by(starts(line, 10, 95, 1.3));

        assertThat(told.baselines).hasSize(1);
        assertThat(told.baselines.get(0).usual(Measurand.TOP).orElseThrow().median())
                .isBetween(94.5, 95.5);
        assertThat(progress(told)).contains("no baseline, told to learn anew: learning, 0 of 10");
    }

    @Test
    void a_sound_machine_that_is_slow_by_nature_is_quiet_once_it_was_told_to_learn_that() {
        Line line = Line.withSeed(5).at(0).hold(12);
        starts(line, 3, 100, 3.3);
        journal(line, Order.Entry.LEARN);
        starts(line, 10, 100, 3.3);

        Told told = Told.by(starts(line, 20, 100, 3.3));

        assertThat(told.raised()).containsExactly("rise ADVISORY"); // before it was learned
        assertThat(told.alarms.get(1).event()).isEqualTo(AlarmEvent.RETURNED);
        assertThat(told.verdicts.subList(13, 33))
                .extracting(StartupVerdict::outcome)
                .containsOnly(Outcome.GOOD);
        assertThat(told.note(20))
                .containsPattern(
                        "^rise 3\\.\\d\\d s, limit [45]\\.\\d s \\(1\\.5 times its own rise of"
                                + " 3\\.\\d\\d s, instead of 3\\.0 s\\)$");
    }

    @Test
    void a_machine_slow_by_nature_is_called_when_it_becomes_slower_still() {
        Line line = Line.withSeed(6).at(0).hold(12);
        journal(line, Order.Entry.LEARN);
        starts(line, 10, 100, 3.3);

        Told told = Told.by(starts(line, 3, 100, 5.4));

        assertThat(told.raised()).contains("rise ADVISORY");
        assertThat(told.verdicts.get(12).outcome()).isEqualTo(Outcome.SLOW);
    }

    @Test
    void a_machine_that_has_never_been_slow_is_given_no_more_time_than_the_limit() {
        Line line = Line.withSeed(7).at(0).hold(12);
        starts(line, 10, 100, 1.3);

        Told told = Told.by(starts(line, 2, 100, 3.3));

        assertThat(told.verdicts.get(11).outcome()).isEqualTo(Outcome.SLOW);
        assertThat(told.note(11))
                .startsWith("rise 3.")
                .contains("limit 3.0 s; not as usual for it: ")
                .contains("rise 10-90 % from rest (2 of 3");
    }

    @Test
    void slow_wear_is_called_against_its_own_baseline_before_any_limit_is_broken() {
        Line line = Line.withSeed(8).at(0).hold(12);
        starts(line, 10, 104, 1.3);
        for (int start = 0; start < 60; start++) {
            line.towards(104 - 0.5 * start, 1.3 / LN_9, 60).towards(0, 1, 25);
        }

        Told told = Told.by(line);

        List<String> raised = told.raised();
        assertThat(raised.get(0)).isEqualTo("baseline ADVISORY");
        assertThat(raised).contains("baseline WARNING", "level-low ADVISORY");
        assertThat(raised.indexOf("baseline ADVISORY"))
                .isLessThan(raised.indexOf("level-low ADVISORY"));
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .containsPattern(
                        "^boosted reached 9[567]\\.\\d psi, usually 104\\.0 psi, [78] % less; 3"
                                + " starts running, against a baseline of 10 starts$");
        assertThat(told.alarms.get(0).finding().measured()).isBetween(94.0, 97.0);
        assertThat(told.alarms.get(0).finding().limit()).isBetween(96.5, 97.0);
    }

    @Test
    void two_starts_that_differ_are_not_enough_and_one_as_usual_clears() {
        Line line = Line.withSeed(9).at(0).hold(12);
        starts(line, 10, 104, 1.3);
        starts(line, 2, 94, 1.3);
        starts(line, 1, 104, 1.3);
        int quiet = Told.by(line).alarms.size();
        starts(line, 3, 94, 1.3);

        Told told = Told.by(starts(line, 1, 104, 1.3));

        assertThat(quiet).isZero();
        assertThat(told.alarms)
                .extracting(a -> a.event())
                .containsExactly(AlarmEvent.RAISED, AlarmEvent.RETURNED);
        assertThat(told.note(11))
                .endsWith("; not as usual for it: boosted reached (2 of 3 starts running)");
    }

    @Test
    void a_level_under_a_supply_that_is_not_as_usual_is_no_change_of_the_machine() {
        Line line = Line.withSeed(10).at(0).hold(12);
        starts(line, 10, 104, 1.3);
        line.inlet(30).hold(12);

        Told told = Told.by(starts(line, 4, 95, 1.3));

        assertThat(told.raised()).isEmpty();
    }

    @Test
    void service_ends_a_finding_that_rests_on_the_old_baseline() {
        Line line = Line.withSeed(11).at(0).hold(12);
        starts(line, 10, 104, 1.3);
        starts(line, 3, 94, 1.3);
        journal(line, Order.Entry.SERVICED);

        Told told = Told.by(line);

        assertThat(told.alarms)
                .extracting(a -> a.event())
                .containsExactly(AlarmEvent.RAISED, AlarmEvent.RETURNED);
        assertThat(Json.IN_PSI.remarks(told.alarms.get(1).finding())).contains("learned anew");
    }

    @Test
    void a_watch_that_is_told_the_baseline_judges_as_one_that_has_learned_it() {
        Line learned = Line.withSeed(12).at(0).hold(12);
        Baseline baseline = Told.by(starts(learned, 10, 104, 1.3)).baselines.get(0);
        Line later = starts(Line.withSeed(13).at(0).hold(12), 3, 94, 1.3);

        Told knowing = Told.by(later.settings().knowing(Optional.of(baseline)), later.inputs());
        Told ignorant = Told.by(later);

        assertThat(knowing.raised()).containsExactly("baseline ADVISORY");
        assertThat(knowing.learnings).isEmpty();
        assertThat(ignorant.raised()).isEmpty();
    }

    /** As {@link #start} with a run signal; after the stop the pressure falls with this pace. */
    private static Line stops(Line line, int count, double fallTauSeconds) {
        for (int i = 0; i < count; i++) {
            line.running(true).towards(100, 1.3 / LN_9, 22);
            line.running(false).towards(0, fallTauSeconds, 60);
        }
        return line;
    }

    @Test
    void the_stops_after_the_good_starts_are_learned_too() {
        Line line = Line.withSeed(20).runSignal().at(0).hold(12);

        Told told = Told.by(stops(line, 10, 1.5));

        // the last stop comes after the start that completes the baseline
        Usual fall = told.baselines.get(0).usual(Measurand.FALL).orElseThrow();
        assertThat(fall.count()).isEqualTo(9);
        assertThat(fall.median()).isCloseTo(1.5 * Math.log(90 / 40.0), within(0.03));
    }

    @ParameterizedTest
    @CsvSource({"0.7, % less", "3.6, % more"})
    void a_leak_or_air_behind_the_booster_shows_in_the_fall_after_three_stops(
            double fallTauSeconds, String words) {
        Line line = stops(Line.withSeed(21).runSignal().at(0).hold(12), 10, 1.5);
        stops(line, 2, fallTauSeconds);
        int quiet = Told.by(line).alarms.size();

        Told told = Told.by(stops(line, 1, fallTauSeconds));

        assertThat(quiet).isZero();
        assertThat(told.raised()).containsExactly("baseline ADVISORY");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .startsWith("fall after the stop, 90 to 40 % ")
                .contains(words);
    }

    @Test
    void a_level_above_its_own_is_called_though_it_is_below_every_fixed_limit() {
        Line line = Line.withSeed(22).at(0).hold(12);
        starts(line, 10, 100, 1.3);

        Told told = Told.by(starts(line, 3, 114, 1.3));

        assertThat(told.raised()).containsExactly("baseline ADVISORY");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .containsPattern(
                        "^boosted reached 11[34]\\.\\d psi, usually 100\\.0 psi, 14 % more; 3 starts");
    }

    @Test
    void a_level_far_below_its_own_is_called_after_one_start() {
        Line line = Line.withSeed(23).at(0).hold(12);
        starts(line, 10, 118, 1.3);

        Told told = Told.by(starts(line, 1, 92, 1.3));

        assertThat(told.raised()).containsExactly("baseline ADVISORY");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .contains("22 % less")
                .endsWith("one start, by far, against a baseline of 10 starts");
    }

    @Test
    void a_level_that_sinks_in_the_course_of_its_runs_is_called_though_each_start_is_as_usual() {
        Line line = Line.withSeed(24).at(0).hold(12);
        starts(line, 10, 118, 1.3);
        for (int run = 0; run < 3; run++) {
            line.towards(118, 1.3 / LN_9, 22).towards(106, 30, 400).towards(0, 1, 25);
        }

        Told told = Told.by(line);

        assertThat(told.verdicts).allMatch(verdict -> verdict.outcome() == Outcome.GOOD);
        assertThat(told.raised()).contains("baseline ADVISORY");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .contains("9 % less; over the run; 3 starts running");
    }
}
