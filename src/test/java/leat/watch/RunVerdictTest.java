package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import leat.bench.line.Fault;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.absence.Absence;
import leat.rule.RunVerdict;
import leat.rule.RunVerdict.Aspect;
import leat.rule.RunVerdict.Mark;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A booster should at least double the inlet gauge pressure; at least 80 psi is needed while water
 * is drawn, and no more than about 120 (common practice, no source).
 */
class RunVerdictTest {

    /** As the bench says: about 73 psi under strokes, 98 without. */
    private static final double WORN = 0.9;

    @ParameterizedTest
    @ValueSource(doubles = {12, 25, 40})
    void run_too_short_for_a_delay_is_judged_when_it_ends(double seconds) {
        Plays play = Plays.usual(3).strike(0, Fault.WORN_BOOSTER, WORN).run(20, 20 + seconds);

        Told told = play.feed(60 + seconds).told();

        assertThat(told.raised()).contains("level-low WARNING", "ratio WARNING");
        RunVerdict verdict = last(told).verdict();
        assertThat(verdict.mark()).isEqualTo(Mark.WARNING);
        assertThat(verdict.parts())
                .contains(part(Aspect.RISE, Mark.GOOD), part(Aspect.LOADED, Mark.WARNING));
        assertThat(verdict.raised()).extracting(RunVerdict.Raised::rule).hasSize(2);
    }

    @Test
    void next_short_run_that_is_good_ends_what_the_one_before_raised() {
        Plays play =
                Plays.usual(3)
                        .strike(0, Fault.WORN_BOOSTER, WORN)
                        .run(20, 40)
                        .repair(60, Fault.WORN_BOOSTER)
                        .run(80, 100);

        Told told = play.feed(140).told();

        assertThat(told.runs).extracting(run -> run.verdict().mark()).endsWith(Mark.GOOD);
        assertThat(told.alarms)
                .filteredOn(alarm -> !alarm.to().isActive())
                .extracting(alarm -> alarm.finding().rule().key())
                .contains("level-low", "ratio");
    }

    @Test
    void level_that_recovers_whenever_the_jet_pauses_is_called() {
        Plays play =
                Plays.usual(5)
                        .strike(0, Fault.WORN_BOOSTER, WORN)
                        .start(10)
                        .jet(30, 12, 8, 300)
                        .stop(300);

        BenchFeed feed = play.feed(340);
        Told told = feed.told();

        assertThat(told.raised()).contains("level-low WARNING", "ratio WARNING");
        assertThat(told.alarms.get(0).atMicros() - BenchFeed.START).isLessThan(150_000_000L);
        Outcome.RunJudged run = last(told);
        assertThat(run.run().figure(Measurand.LOADED).get()).isCloseTo(73, within(2.0));
        double paused = mean(feed, second -> second >= 30 && (second - 30) % 20 >= 15);
        assertThat(run.run().figure(Measurand.UNLOADED).get()).isCloseTo(paused, within(0.5));
    }

    @Test
    void sound_machine_with_the_jet_on_and_off_is_good() {
        Plays play = Plays.usual(6).start(10).jet(30, 7, 5, 300).stop(300);

        Told told = play.feed(340).told();

        assertThat(told.raised()).isEmpty();
        assertThat(last(told).verdict().mark()).isEqualTo(Mark.GOOD);
        assertThat(last(told).verdict().parts())
                .contains(
                        part(Aspect.RISE, Mark.GOOD),
                        part(Aspect.LOADED, Mark.GOOD),
                        part(Aspect.UNLOADED, Mark.GOOD),
                        part(Aspect.RATIO, Mark.GOOD),
                        part(Aspect.INLET, Mark.GOOD));
    }

    @Test
    void level_too_high_is_called_though_no_pause_lasts_as_long_as_the_delay() {
        Plays play =
                Plays.usual(7)
                        .strike(0, Fault.SET_TOO_HIGH, 0.4)
                        .start(10)
                        .jet(30, 10, 15, 300)
                        .stop(300);

        Told told = play.feed(340).told();

        assertThat(told.raised()).containsExactly("level-high ADVISORY");
    }

    @Test
    void run_that_was_cut_off_at_once_is_not_called_good() {
        Told told = Plays.usual(8).run(20, 22).feed(60).told();

        assertThat(told.raised()).isEmpty();
        assertThat(last(told).verdict().mark()).isEqualTo(Mark.NOT_JUDGED);
        Figure loaded = last(told).run().figure(Measurand.LOADED);
        assertThat(loaded.absentBecause()).isEqualTo(Absence.NO_STROKES_SEEN);
    }

    @Test
    void long_run_has_a_verdict_while_it_lasts() {
        Told told = Plays.usual(9).run(10, 16 * 60).feed(16 * 60 + 40).told();

        assertThat(told.runs).extracting(run -> run.run().over()).startsWith(false).endsWith(true);
        assertThat(told.runs).extracting(run -> run.verdict().mark()).containsOnly(Mark.GOOD);
    }

    /** Of the boosted readings of some seconds, before 300 s. */
    private static double mean(BenchFeed feed, IntPredicate seconds) {
        List<Double> psi = new ArrayList<>();
        for (Input input : feed.inputs()) {
            if (input instanceof Reading reading && reading.channel() == Channel.BOOSTED) {
                int second = (int) ((reading.atMicros() - BenchFeed.START) / 1_000_000);
                if (second < 300 && seconds.test(second)) {
                    psi.add(reading.value());
                }
            }
        }
        return psi.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
    }

    private static RunVerdict.Part part(Aspect aspect, Mark mark) {
        return new RunVerdict.Part(aspect, mark);
    }

    private static Outcome.RunJudged last(Told told) {
        return told.runs.get(told.runs.size() - 1);
    }
}
