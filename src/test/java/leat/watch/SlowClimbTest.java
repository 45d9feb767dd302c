package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.function.Supplier;
import leat.bench.line.Fault;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.measure.absence.Absence;
import leat.phase.Phase;
import leat.phase.PhaseReason;
import leat.report.Json;
import leat.rule.Grade;
import leat.rule.StartupVerdict.Outcome;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A pressure that climbs for longer than it may: called in time, measured when it stands. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SlowClimbTest {

    private final Tapes tapes = new Tapes();

    /** Seconds in which the true pressure climbs from one level to another for the first time. */
    private double seconds(Scenario scenario, double fromPsi, double toPsi) {
        Supplier<Sample> samples = tapes.play(scenario, "jet-1");
        Sample sample = samples.get();
        while (sample.truth().boostedPsi() < fromPsi) {
            sample = samples.get();
        }
        long from = sample.micros();
        while (sample.truth().boostedPsi() < toPsi) {
            sample = samples.get();
        }
        return (sample.micros() - from) / 1e6;
    }

    @ParameterizedTest
    @EnumSource(
            value = Wiring.class,
            names = {"PRESSURES", "RUNNING"})
    void a_line_full_of_air_is_called_at_its_time_and_measured_at_its_level(Wiring wiring) {
        Plays play = Plays.usual(31).strike(0, Fault.AIR, 1).strike(0, Fault.PART_OPEN_VALVE, 0.9);
        play.start(10);

        Told told = play.feed(60).from(tapes).wiring(wiring).told();

        double top = told.startups.get(0).topPsi().get();
        assertThat(told.alarms)
                .extracting(a -> a.event() + " " + a.finding().rule() + " " + a.finding().grade())
                .containsExactly("RAISED RISE CRITICAL", "EASED RISE WARNING");
        assertThat(told.verdicts.get(0).outcome()).isEqualTo(Outcome.VERY_SLOW);
        assertThat(top).isBetween(97.0, 101.0);
        assertThat(told.startups.get(0).riseSeconds().get())
                .isGreaterThan(12)
                .isCloseTo(seconds(play.until(60), top / 10, top * 0.9), within(0.2));
        assertThat(told.steadies)
                .singleElement()
                .satisfies(s -> assertThat(s.boostedLowPsi().get()).isGreaterThan(95));
    }

    @Test
    void while_the_line_fills_a_low_inlet_is_no_weak_supply() {
        Line line = Line.withSeed(2).runSignal().at(0).hold(9).running(true).inlet(20);
        line.towards(100, 7, 18).inlet(41).hold(40);

        assertThat(Told.by(line).raised()).containsExactly("rise CRITICAL");
    }

    @Test
    void a_starved_booster_is_called_while_it_fills_too() {
        Line line = Line.withSeed(2).runSignal().at(0).hold(9).running(true).inlet(2);
        line.towards(100, 7, 18);

        assertThat(Told.by(line).raised()).containsExactly("inlet CRITICAL");
    }

    @Test
    void a_climb_that_begins_when_its_time_is_nearly_over_has_risen_late_though_quickly() {
        Line line = Line.withSeed(3).runSignal().at(0).hold(9).running(true).hold(10.4);
        line.towards(100, 1.2, 30);

        Told told = Told.by(line);

        assertThat(told.verdicts.get(0).outcome()).isEqualTo(Outcome.VERY_SLOW);
        assertThat(told.note(0)).contains("it has risen late");
        assertThat(told.startups.get(0).riseSeconds().get())
                .isCloseTo(1.2 * Math.log(9), within(0.1));
        assertThat(told.alarms)
                .extracting(a -> a.event() + " " + a.finding().grade())
                .containsExactly("RAISED CRITICAL", "EASED WARNING");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(1).finding()))
                .isEqualTo("it has risen late");
    }

    @Test
    void a_run_that_ends_in_an_overdue_climb_has_not_risen() {
        Line line = Line.withSeed(4).runSignal().at(0).hold(9).running(true);
        line.towards(100, 40, 30).running(false).towards(0, 2, 20);

        Told told = Told.by(line);

        assertThat(told.verdicts).extracting(v -> v.outcome()).containsExactly(Outcome.NOT_RISEN);
        assertThat(told.note(0)).startsWith("not risen within 30.0 s");
        assertThat(told.startups.get(0).riseSeconds().absentBecause()).isEqualTo(Absence.NO_LEVEL);
        assertThat(told.raised()).containsExactly("rise CRITICAL");
        assertThat(told.alarms.get(0).finding().limit()).isEqualTo(12);
    }

    @Test
    void a_climb_without_end_is_given_a_minute() {
        Line line = Line.withSeed(5).runSignal().at(0).hold(9).running(true).hold(10);
        line.towards(3000, 600, 70);

        Told told = Told.by(line);

        assertThat(told.phases)
                .filteredOn(change -> change.to() == Phase.STEADY)
                .singleElement()
                .satisfies(
                        change -> {
                            assertThat(change.reason()).isEqualTo(PhaseReason.CLIMB_TIME_OVER);
                            assertThat(change.atMicros() - Line.START)
                                    .isBetween(69_000_000L, 70_000_000L);
                        });
        assertThat(told.startups)
                .singleElement()
                .satisfies(
                        start ->
                                assertThat(start.measuredAtMicros() - start.startedAtMicros())
                                        .isBetween(60_000_000L, 69_000_000L));
    }

    @Test
    void one_that_stands_below_its_level_is_given_up_at_its_time_as_ever() {
        Line line = Line.withSeed(6).runSignal().at(0).hold(9).running(true).towards(8, 1, 30);

        Told told = Told.by(line);

        assertThat(told.startups.get(0).measuredAtMicros() - told.startups.get(0).startedAtMicros())
                .isBetween(12_000_000L, 13_000_000L);
        assertThat(told.alarms.get(0).finding().grade()).isEqualTo(Grade.CRITICAL);
    }
}
