package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.alarm.ServiceChange;
import leat.report.Json;
import leat.rule.Limit;
import leat.rule.Rule;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.signal.SourceLost;
import org.junit.jupiter.api.Test;

/** Somebody works on the machine: what happens to its pressures is no news. */
class ServiceTest {

    private static Line service(Line line, Entry entry) {
        return line.input(new Instruction(line.now(), "kim", new Order.Journal(entry, "new seal")));
    }

    private static List<AlarmChange> calls(Told told) {
        return told.alarms.stream().filter(AlarmChange::isCall).toList();
    }

    @Test
    void a_pressure_that_fails_in_service_calls_nobody_and_is_forgotten_when_the_service_ends() {
        Line line = Line.quiet().at(0).hold(10);
        service(line, Entry.SERVICE_ON);
        line.inlet(3).towards(100, 0.8, 40).inlet(42).towards(0, 1, 30); // starved, then stopped
        service(line, Entry.SERVICE_OFF).hold(30);

        Told told = Told.by(line);

        assertThat(told.alarms).isNotEmpty();
        assertThat(calls(told)).isEmpty();
        assertThat(told.alarms.get(told.alarms.size() - 1).to()).isEqualTo(AlarmState.NORMAL);
        assertThat(told.alarms)
                .extracting(AlarmChange::event)
                .startsWith(AlarmEvent.RAISED)
                .endsWith(AlarmEvent.RETURNED, AlarmEvent.RELEASED);
        assertThat(told.services).extracting(ServiceChange::on).containsExactly(true, false);
    }

    @Test
    void an_alarm_that_waited_before_the_service_waits_after_it() {
        Line line = Line.quiet().at(0).hold(10).towards(70, 0.8, 60);
        service(line, Entry.SERVICE_ON);
        line.towards(0, 1, 30);
        service(line, Entry.SERVICE_OFF).hold(5);

        Told told = Told.by(line);
        AlarmChange last = told.alarms.get(told.alarms.size() - 1);

        assertThat(last.event()).isEqualTo(AlarmEvent.RELEASED);
        assertThat(last.to()).isEqualTo(AlarmState.UNACKNOWLEDGED);
        assertThat(last.isCall()).isTrue();
    }

    @Test
    void channels_that_fall_silent_in_service_are_told() {
        Line line = Line.quiet().at(0).hold(10);
        service(line, Entry.SERVICE_ON);
        line.input(new SourceLost(Channel.INLET, line.now(), "cable cut")).silence(20);

        assertThat(Told.by(line).raised())
                .containsExactly("signal-missing WARNING", "signal-missing WARNING");
    }

    @Test
    void the_first_starts_after_a_service_may_be_slow() {
        Line line = Line.quiet().at(0).hold(10);
        service(line, Entry.SERVICE_ON).hold(5);
        service(line, Entry.SERVICE_OFF).hold(5).towards(100, 4, 60);

        Told told = Told.by(line);

        assertThat(told.verdicts)
                .extracting(StartupVerdict::outcome)
                .containsExactly(StartupVerdict.Outcome.RELAXED);
    }

    @Test
    void the_end_of_a_service_lets_go_what_rests_on_the_old_baseline_and_learns_anew() {
        Line line = Line.withSeed(11).at(0).hold(12);
        starts(line, 10, 104);
        service(line, Entry.SERVICE_ON).hold(5);
        starts(line, 3, 94);
        service(line, Entry.SERVICE_OFF).hold(5);

        Told told = Told.by(line);

        assertThat(told.alarms)
                .extracting(AlarmChange::event)
                .containsExactly(AlarmEvent.RAISED, AlarmEvent.RETURNED, AlarmEvent.RELEASED);
        assertThat(told.alarms.get(0).finding().rule()).isEqualTo(Rule.BASELINE);
        assertThat(calls(told)).isEmpty();
        assertThat(Json.IN_PSI.learning(told.learnings.get(told.learnings.size() - 1)))
                .isEqualTo("no baseline, the machine was serviced: learning, 0 of 10");
    }

    private static void starts(Line line, int count, double psi) {
        for (int i = 0; i < count; i++) {
            line.towards(psi, 1.3, 25).towards(0, 1, 20);
        }
    }

    @Test
    void a_service_that_nobody_ends_is_ended_after_its_longest_time() {
        Line line = Line.quiet().limit(Limit.ALARM_LONGEST_HOLD, 60).at(0).hold(10);
        service(line, Entry.SERVICE_ON);
        line.hold(61);

        Told told = Told.by(line);

        assertThat(told.services).hasSize(2);
        ServiceChange end = told.services.get(1);
        assertThat(end.on()).isFalse();
        assertThat(end.by()).isEmpty();
        assertThat(end.atMicros()).isEqualTo(told.services.get(0).untilMicros());
    }

    @Test
    void the_end_of_a_service_that_never_began_is_refused() {
        Line line = Line.quiet().at(0).hold(10);
        service(line, Entry.SERVICE_OFF);

        assertThat(Told.by(line).refusals).containsExactly("the machine is not in service");
    }

    /** The inlet sinks and recovers every 25 s, deep enough for a warning each time. */
    @Test
    void an_hour_of_a_chattering_inlet_is_one_alarm_with_a_count_and_a_handful_of_calls() {
        Line line = Line.withSeed(7).at(0).hold(10).towards(100, 0.8, 30);
        for (int i = 0; i < 144; i++) {
            line.inlet(12).hold(13).inlet(42).hold(12);
        }

        Told told = Told.by(line);
        List<AlarmChange> inlet =
                told.alarms.stream().filter(a -> a.alarmId().startsWith("jet-1.inlet.")).toList();
        AlarmChange last = inlet.get(inlet.size() - 1);

        assertThat(inlet).extracting(AlarmChange::alarmId).containsOnly(last.alarmId());
        assertThat(last.notes().count()).isGreaterThan(100);
        assertThat(last.notes().chattering()).isTrue();
        assertThat(inlet.stream().filter(AlarmChange::isCall)).hasSize(3);
    }
}
