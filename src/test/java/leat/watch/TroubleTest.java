package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.bench.line.Fault;
import leat.phase.Phase;
import leat.report.Json;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.rule.Rule;
import leat.rule.StartupVerdict.Outcome;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Faults that come, go and mix; each calls what it is and nothing that only follows from it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class TroubleTest {

    private final Tapes tapes = new Tapes();

    @ParameterizedTest
    @EnumSource(
            value = Wiring.class,
            names = {"RUNNING", "VALVE", "RUNNING_AND_VALVE"})
    void a_booster_that_fails_in_mid_run_is_critical_within_seconds(Wiring wiring) {
        Plays play = Plays.usual(4).start(5).strike(50, Fault.NOT_TURNING, 1).stop(120);

        Told told = play.feed(160).from(tapes).wiring(wiring).told();

        assertThat(told.raised()).containsExactly("ratio CRITICAL");
        assertThat(told.alarms.get(0).atMicros() - BenchFeed.START).isLessThan(65_000_000);
    }

    @Test
    void from_the_pressures_alone_that_looks_like_a_leaking_valve_and_the_doubt_is_told() {
        Plays play = Plays.usual(4).start(5).strike(50, Fault.NOT_TURNING, 1).stop(120);

        Told told = play.feed(160).told();

        assertThat(told.raised()).containsExactly("rest WARNING");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .isEqualTo(
                        "no run signal is known: if the booster should be running, it does not boost");
    }

    @ParameterizedTest
    @EnumSource(
            value = Wiring.class,
            names = {"RUNNING", "VALVE", "RUNNING_AND_VALVE"})
    void a_valve_that_begins_to_leak_at_rest_is_no_start(Wiring wiring) {
        Plays play = Plays.usual(6).run(5, 50).strike(90, Fault.LEAKING_VALVE, 0.6);

        Told told = play.feed(160).from(tapes).wiring(wiring).told();

        assertThat(told.raised()).containsExactly("rest ADVISORY");
        assertThat(told.startups).hasSize(1);
    }

    @ParameterizedTest
    @EnumSource(
            value = Wiring.class,
            names = {"RUNNING", "RUNNING_AND_VALVE"})
    void a_level_that_a_slipping_coupling_shakes_has_risen_all_the_same(Wiring wiring) {
        Plays play = Plays.usual(31).strike(0, Fault.COUPLING_SLIPS, 0.7).run(10, 90);

        Told told = play.feed(150).from(tapes).wiring(wiring).told();

        assertThat(told.raised()).containsExactly("ratio WARNING", "level-low WARNING");
    }

    @ParameterizedTest
    @EnumSource(Wiring.class)
    void water_shut_is_critical_and_nothing_of_it_is_left_in_the_next_sound_run(Wiring wiring) {
        Plays play = Plays.usual(6).strike(0, Fault.WATER_SHUT, 1).run(5, 80);
        play.repair(100, Fault.WATER_SHUT).run(120, 180);

        Told told = play.feed(220).from(tapes).wiring(wiring).told();

        assertThat(told.raised()).containsExactly("inlet CRITICAL");
        assertThat(told.alarms)
                .extracting(a -> a.event())
                .isEqualTo(List.of(AlarmEvent.RAISED, AlarmEvent.RETURNED));
    }

    @ParameterizedTest
    @EnumSource(Wiring.class)
    void water_opened_in_mid_run_ends_it_all(Wiring wiring) {
        Plays play = Plays.usual(6).strike(0, Fault.WATER_SHUT, 1).run(5, 180);
        play.repair(80, Fault.WATER_SHUT);

        Told told = play.feed(220).from(tapes).wiring(wiring).told();

        assertThat(told.raised()).containsExactly("inlet CRITICAL");
        assertThat(told.alarms)
                .extracting(a -> a.event())
                .isEqualTo(List.of(AlarmEvent.RAISED, AlarmEvent.RETURNED));
    }

    @Test
    void a_pressure_that_rises_late_eases_the_call_to_stop_the_booster() {
        Line line = Line.withSeed(1).runSignal().at(0).hold(8).running(true).hold(16);
        line.towards(100, 1, 60).running(false).towards(0, 2, 30);
        line.running(true).towards(100, 0.6, 30);

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("rise CRITICAL");
        assertThat(told.alarms)
                .extracting(a -> a.event() + " " + a.finding().grade())
                .containsExactly("RAISED CRITICAL", "EASED WARNING", "RETURNED WARNING");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(1).finding()))
                .isEqualTo("it has risen late");
        assertThat(told.alarms.get(1).finding().measured()).isBetween(16.0, 26.0);
    }

    @Test
    void a_later_start_that_cannot_be_judged_does_not_keep_that_call_over_a_good_run() {
        Line line = Line.withSeed(1).runSignal().at(0).hold(8).running(true).hold(20);
        line.running(false).hold(20).at(97).hold(10).running(true).hold(90);

        Told told = Told.by(line);

        assertThat(told.verdicts)
                .extracting(v -> v.outcome())
                .containsExactly(Outcome.NOT_RISEN, Outcome.NOT_JUDGED);
        assertThat(told.alarms.get(told.alarms.size() - 1).finding().grade())
                .isEqualTo(Grade.WARNING);
    }

    @Test
    void air_after_service_that_takes_twenty_seconds_calls_nobody_before_its_own_deadline() {
        Line line = Line.withSeed(2).runSignal().at(0).hold(8);
        line.input(
                new Instruction(line.now(), "tech", new Order.Journal(Order.Entry.SERVICED, "")));
        line.running(true).towards(60, 40, 22).towards(100, 1, 40);

        Told told = Told.by(line);

        assertThat(told.raised()).isEmpty();
        assertThat(told.verdicts.get(0).outcome()).isEqualTo(Outcome.RELAXED);
    }

    @Test
    void a_start_after_service_that_never_rises_names_the_deadline_that_it_missed() {
        Line line = Line.withSeed(2).runSignal().at(0).hold(8);
        line.input(
                new Instruction(line.now(), "tech", new Order.Journal(Order.Entry.SERVICED, "")));
        line.running(true).hold(40);

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("rise CRITICAL");
        assertThat(told.alarms.get(0).finding().limit()).isEqualTo(30);
    }

    @Test
    void starts_that_are_broken_off_do_not_use_up_the_patience_after_service() {
        Line line = Line.withSeed(3).runSignal().at(0).hold(8);
        line.input(
                new Instruction(line.now(), "tech", new Order.Journal(Order.Entry.SERVICED, "")));
        for (int i = 0; i < 3; i++) {
            line.running(true).towards(30, 1, 2).running(false).towards(0, 1, 15);
        }
        line.running(true).towards(100, 3, 30);

        Told told = Told.by(line);

        assertThat(told.verdicts.get(3).outcome()).isEqualTo(Outcome.RELAXED);
        assertThat(told.note(3)).contains("start 1 of 3 after service");
    }

    @Test
    void a_supply_that_recovers_at_once_returns_without_easing_through_the_grades() {
        Line line = Line.withSeed(4).at(0).hold(8).towards(100, 0.6, 30).inlet(12).hold(40);
        line.inlet(42).hold(40);

        Told told = Told.by(line);

        assertThat(told.alarms)
                .extracting(a -> a.event() + " " + a.finding().grade())
                .containsExactly("RAISED WARNING", "RETURNED WARNING");
    }

    @Test
    void a_level_that_falls_past_both_limits_at_once_is_called_once() {
        Line line = Line.withSeed(4).at(0).hold(8).towards(100, 0.6, 30).towards(60, 1.5, 60);

        assertThat(Told.by(line).raised()).containsExactly("ratio WARNING", "level-low WARNING");
    }

    @Test
    void a_level_that_sinks_slowly_is_called_at_each_limit() {
        Line line = Line.withSeed(4).at(0).hold(8).towards(100, 0.6, 30).towards(70, 60, 200);

        assertThat(Told.by(line).raised())
                .contains("level-low ADVISORY", "level-low WARNING", "ratio WARNING");
    }

    @Test
    void a_supply_that_recovers_by_half_eases() {
        Line line = Line.withSeed(4).at(0).hold(8).towards(100, 0.6, 30).inlet(12).hold(40);
        line.inlet(21).hold(40);

        Told told = Told.by(line);

        assertThat(told.alarms)
                .extracting(a -> a.event() + " " + a.finding().grade())
                .containsExactly("RAISED WARNING", "EASED ADVISORY");
    }

    @Test
    void water_left_on_with_the_booster_off_is_told_from_a_leak_by_a_valve_signal() {
        Line without = Line.withSeed(5).runSignal().at(0).hold(8).running(true);
        without.towards(100, 0.6, 30).running(false).towards(40, 0.5, 60);
        Line with = Line.withSeed(5).runSignal().valveSignal().at(0).hold(8);
        with.valve(true).running(true).towards(100, 0.6, 30).running(false).towards(40, 0.5, 60);

        assertThat(Told.by(without).raised()).containsExactly("rest WARNING");
        assertThat(Json.IN_PSI.remarks(Told.by(without).alarms.get(0).finding()))
                .contains("no valve signal is known");
        assertThat(Told.by(with).raised()).isEmpty();
    }

    @Test
    void pressure_at_rest_far_above_the_inlet_is_not_blamed_on_the_valve() {
        Line line = Line.withSeed(6).runSignal().inlet(42).at(80).hold(60);

        assertThat(Told.by(line).raised()).containsExactly("rest ADVISORY");
    }

    @Test
    void a_line_without_a_bleed_is_not_judged_at_rest() {
        Line line = Line.withSeed(7).runSignal().limit(Limit.REST_BLEEDS, 0).at(0).hold(8);
        line.running(true).towards(100, 0.6, 30).running(false).towards(95, 5, 120);

        assertThat(Told.by(line).raised()).isEmpty();
    }

    @Test
    void a_stuck_boosted_reading_is_a_warning_and_no_verdict_on_the_pressure() {
        Line line = Line.withSeed(8).runSignal().at(0).hold(20).freezeBoosted(true);
        line.running(true).inlet(39).towards(100, 0.6, 60);

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("signal-stuck WARNING");
        assertThat(told.verdicts.get(0).outcome()).isEqualTo(Outcome.NOT_JUDGED);
    }

    @Test
    void a_stuck_reading_stays_an_alarm_after_the_stop_until_it_moves_again() {
        Line line = Line.withSeed(8).runSignal().at(0).hold(20).running(true);
        line.towards(100, 0.6, 30).freezeBoosted(true).inlet(36).hold(20);
        line.running(false).towards(0, 2, 40);
        int frozen = line.inputs().size();
        line.freezeBoosted(false).hold(20);

        Told whole = Told.by(line);
        Told before = Told.by(line.settings(), line.inputs().subList(0, frozen));

        assertThat(before.alarms).extracting(a -> a.event()).containsExactly(AlarmEvent.RAISED);
        assertThat(whole.alarms)
                .extracting(a -> a.event())
                .containsExactly(AlarmEvent.RAISED, AlarmEvent.RETURNED);
    }

    @Test
    void a_stuck_inlet_leaves_the_boosted_level_judged() {
        Line line = Line.withSeed(8).runSignal().at(0).hold(20).running(true);
        line.towards(100, 0.6, 30).freezeInlet(true).hold(3).towards(70, 1, 60);

        assertThat(Told.by(line).raised())
                .containsExactly("signal-stuck WARNING", "level-low WARNING");
    }

    @Test
    void an_inlet_at_its_lower_stop_in_a_vacuum_is_starved_and_not_stuck() {
        Line line = Line.withSeed(9).runSignal().at(0).hold(20).running(true);
        line.towards(100, 0.6, 30).inlet(-1.25).hold(0.05).freezeInlet(true).towards(0, 0.5, 30);

        assertThat(Told.by(line).raised()).containsExactly("inlet CRITICAL");
    }

    @Test
    void a_loose_connector_that_flickers_is_a_bad_channel() {
        Line line = Line.withSeed(10).at(0).hold(10);
        for (int i = 0; i < 40; i++) {
            line.hold(0.2).input(Reading.bad(Channel.BOOSTED, line.now() + 1, Quality.LOOP_BROKEN));
        }

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("signal-bad WARNING");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding())).contains("broken wire");
    }

    @Test
    void one_bad_reading_now_and_then_is_none() {
        Line line = Line.withSeed(10).at(0).hold(10);
        for (int i = 0; i < 40; i++) {
            line.hold(2.5).input(Reading.bad(Channel.BOOSTED, line.now() + 1, Quality.LOOP_BROKEN));
        }

        assertThat(Told.by(line).raised()).isEmpty();
    }

    @Test
    void a_silent_channel_counts_from_its_last_reading() {
        Line line = Line.withSeed(11).at(0).hold(10);
        long last = line.now();
        line.silence(20);

        Told told = Told.by(line);

        assertThat(told.raised())
                .containsExactly("signal-missing WARNING", "signal-missing WARNING");
        assertThat(told.alarms).allMatch(a -> a.finding().sinceMicros() == last);
    }

    @Test
    void a_clock_set_back_by_an_hour_does_not_hold_an_alarm_for_that_hour() {
        Line line = Line.withSeed(12).at(0).hold(10);
        line.input(new SourceLost(Channel.INLET, line.now(), "cable cut")).hold(0.05);
        line.input(new SourceLost(Channel.INLET, line.now(), "cable cut")).silence(9);
        line.input(new SourceBack(Channel.INLET, line.now())).hold(3);
        long from = line.now();
        line.jump(-3_600_000_000L).input(new ClockStep(line.now(), from)).hold(30);

        Told told = Told.by(line);

        assertThat(told.alarms)
                .filteredOn(a -> a.finding().channel() == Channel.INLET)
                .extracting(a -> a.event())
                .containsExactly(AlarmEvent.RAISED, AlarmEvent.RETURNED);
    }

    @ParameterizedTest
    @ValueSource(longs = {-3_600_000_000L, 86_400_000_000L})
    void an_alarm_has_stood_for_as_long_as_it_has_whatever_the_clock_is_set_to(long by) {
        Line line = Line.withSeed(12).at(0).hold(10).silence(20);
        long from = line.now();
        line.jump(by).input(new ClockStep(line.now(), from)).hold(30);

        Told told = Told.by(line);

        AlarmChange raised = told.alarms.get(0);
        AlarmChange returned = told.alarms.get(told.alarms.size() - 1);
        assertThat(raised.event()).isEqualTo(AlarmEvent.RAISED);
        assertThat(returned.event()).isEqualTo(AlarmEvent.RETURNED);
        assertThat(returned.raisedAtMicros()).isEqualTo(raised.raisedAtMicros() + by);
        assertThat(returned.finding().sinceMicros()).isEqualTo(raised.finding().sinceMicros() + by);
        assertThat(returned.atMicros() - returned.raisedAtMicros())
                .isBetween(15_000_000L, 40_000_000L);
    }

    @Test
    void a_channel_lost_after_the_clock_was_set_back_is_missing_within_seconds() {
        Line line = Line.withSeed(12).at(0).hold(10);
        long from = line.now();
        line.jump(-3_600_000_000L).input(new ClockStep(line.now(), from)).hold(5);
        line.input(new SourceLost(Channel.INLET, line.now(), "cable cut")).silence(9);

        assertThat(Told.by(line).raised()).contains("signal-missing WARNING");
    }

    @Test
    void a_contact_that_speaks_only_when_it_changes_is_still_known_after_a_clock_step() {
        Line line = Line.withSeed(13).at(0).hold(10);
        line.input(Reading.good(Channel.RUNNING, line.now() + 1, 1)).towards(41, 0.6, 30);
        long from = line.now();
        line.jump(600_000_000L).input(new ClockStep(line.now(), from)).hold(40);
        WatchSettings wired = Line.withSeed(13).runSignal().settings();

        Told told = Told.by(wired, line.inputs());

        assertThat(told.phases.get(told.phases.size() - 1).to()).isEqualTo(Phase.STEADY);
        assertThat(told.raised()).containsExactly("ratio CRITICAL");
    }

    @Test
    void a_start_that_the_clock_steps_into_ends_in_the_time_that_it_began_in() {
        Line line = Line.withSeed(14).runSignal().at(0).hold(10).running(true);
        line.towards(100, 0.6, 1.5);
        long from = line.now();
        line.jump(-600_000_000L).input(new ClockStep(line.now(), from)).hold(20);

        Told told = Told.by(line);

        assertThat(told.startups.get(0).measuredAtMicros()).isEqualTo(from);
        assertThat(told.startups.get(0).riseSeconds().isPresent()).isFalse();
        assertThat(told.note(0)).isEqualTo("not judged: cut short: the clock was set");
    }

    @Test
    void a_run_seen_again_after_a_long_silence_is_given_time_like_a_new_one() {
        Line line = Line.withSeed(15).runSignal().at(0).hold(8).running(true);
        line.towards(100, 0.6, 40).silence(300).inlet(1).hold(4.5).inlet(42).hold(30);

        Told told = Told.by(line);

        assertThat(told.alarms).noneMatch(a -> a.finding().rule() == Rule.INLET);
    }

    @Test
    void a_ratio_at_ten_psi_inlet_is_judged_and_below_it_is_not() {
        Line judged = Line.withSeed(16).at(0).inlet(11).hold(8).towards(19, 0.6, 80);
        Line not = Line.withSeed(16).at(0).inlet(9).hold(8).towards(17, 0.6, 80);

        assertThat(Told.by(judged).raised()).contains("ratio WARNING");
        assertThat(Told.by(not).raised()).doesNotContain("ratio WARNING");
    }

    @Test
    void every_grade_of_the_inlet_waits_five_seconds_from_the_start() {
        Line line = Line.withSeed(17).runSignal().at(0).hold(8).running(true).inlet(2);
        line.towards(30, 0.5, 4.9).inlet(42).towards(100, 0.6, 30);

        assertThat(Told.by(line).alarms).noneMatch(a -> a.finding().grade() == Grade.CRITICAL);
    }

    /** What the run before it made says nothing of this one. */
    @Test
    void a_start_that_never_boosts_is_no_stop_though_the_run_before_it_boosted() {
        Line line = Line.withSeed(4).at(0).hold(8).towards(100, 0.6, 40).towards(0, 1, 40);
        line.towards(46, 0.6, 20);
        long lifted = line.now();
        line.towards(37, 4, 5);

        assertThat(Told.by(line).phases).filteredOn(change -> change.atMicros() > lifted).isEmpty();
    }
}
