package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.store.Message;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Alarms of one cause are one call. */
class OneCauseTest {

    private static final long SECOND = 1_000_000;
    private static final long MINUTE = 60 * SECOND;
    private static final AlarmState ACTIVE = AlarmState.UNACKNOWLEDGED;
    private static final String RATIO = "jet-1.ratio.x";
    private static final String LEVEL = "jet-1.level-low.x";

    private final Site site =
            Changes.site(
                    PressureUnit.PSI,
                    new RouteSettings.Log("states", RouteScope.from(Grade.ADVISORY)),
                    new RouteSettings.Log("people", called(Optional.empty())),
                    new RouteSettings.Log("boss", called(Optional.of(Duration.ofMinutes(15)))));
    private final List<Notification> owed = new ArrayList<>();
    private Annunciator annunciator;

    @BeforeEach
    void begin() {
        annunciator = new Annunciator(site);
    }

    private static RouteScope called(Optional<Duration> escalateAfter) {
        return called(escalateAfter, 10);
    }

    private static RouteScope called(Optional<Duration> escalateAfter, int atMost) {
        return new RouteScope(
                Grade.ADVISORY,
                List.of(),
                Duration.ofHours(72),
                new RoutePolicy(
                        Optional.empty(),
                        escalateAfter,
                        Optional.of(Duration.ofMinutes(30)),
                        OptionalInt.of(atMost),
                        Optional.empty()));
    }

    private static Optional<Diagnosis> worn(double weight) {
        return Optional.of(Changes.why(Changes.suspect(Cause.WORN_BOOSTER, weight, Check.JET_OFF)));
    }

    private static Finding finding(Rule rule, Channel channel, Grade grade, long at) {
        return new Finding(
                rule,
                channel,
                grade,
                at,
                at,
                Finding.Quantity.RATIO,
                1.62,
                2.0,
                Finding.Sense.AT_LEAST,
                Figure.of(44.5),
                Figure.of(72.1),
                List.of());
    }

    private static AlarmChange change(
            String alarm, int revision, AlarmEvent event, AlarmState to, Grade grade, long at) {
        return change(alarm, Channel.BOOSTED, revision, event, to, grade, at);
    }

    private static AlarmChange change(
            String alarm,
            Channel channel,
            int revision,
            AlarmEvent event,
            AlarmState to,
            Grade grade,
            long at) {
        Rule rule = Rule.byKey(alarm.split("\\.")[1]).orElseThrow();
        AlarmState own = to.isHeld() ? ACTIVE : to;
        return new AlarmChange(
                alarm,
                revision,
                event,
                AlarmState.NORMAL,
                to,
                at,
                at,
                finding(rule, channel, grade, at),
                "",
                new AlarmNotes(own, 1, false, OptionalLong.empty(), "", Optional.empty()));
    }

    /** A minute of the story; every second in between passes. */
    private void at(double minute, Changed changed) {
        pass(minute);
        owed.addAll(Changes.owed(annunciator, changed));
    }

    private void pass(double minute) {
        owed.addAll(Changes.owed(annunciator, new Occasion.Passed(Math.round(minute * MINUTE))));
    }

    private void raise(double minute, String alarm, Grade grade, Optional<Diagnosis> why) {
        AlarmChange change =
                change(alarm, 1, AlarmEvent.RAISED, ACTIVE, grade, Math.round(minute * MINUTE));
        at(minute, new Changed(alarm.split("\\.")[0], change, why));
    }

    private void later(double minute, String alarm, int revision, AlarmEvent event, AlarmState to) {
        later(minute, alarm, revision, event, to, Grade.WARNING);
    }

    private void later(
            double minute,
            String alarm,
            int revision,
            AlarmEvent event,
            AlarmState to,
            Grade grade) {
        AlarmChange change = change(alarm, revision, event, to, grade, Math.round(minute * MINUTE));
        at(minute, new Changed(alarm.split("\\.")[0], change));
    }

    private List<String> told(String route) {
        return owed.stream()
                .filter(each -> each.route().equals(route) && each.foldedInto().isEmpty())
                .map(Notification::id)
                .toList();
    }

    private Optional<String> foldedInto(String id) {
        return owed.stream()
                .filter(each -> each.route().equals("people") && each.id().equals(id))
                .findFirst()
                .orElseThrow()
                .foldedInto();
    }

    @Test
    void second_alarm_of_a_cause_is_told_in_the_call_of_the_first() {
        raise(0, RATIO, Grade.WARNING, worn(0.84));

        raise(2, LEVEL, Grade.WARNING, worn(0.7));

        assertThat(foldedInto(LEVEL + "/1")).contains(RATIO + "/1");
        assertThat(told("people")).containsExactly(RATIO + "/1");
    }

    @Test
    void where_each_alarm_has_its_state_each_is_told() {
        raise(0, RATIO, Grade.WARNING, worn(0.84));

        raise(2, LEVEL, Grade.WARNING, worn(0.7));

        assertThat(told("states")).containsExactly(RATIO + "/1", LEVEL + "/1");
    }

    @ParameterizedTest(
            name = "{0} after a WARNING of worn 0.84, worn {1}, of {2}, {3} min later: {4}")
    @CsvSource({
        "WARNING,  0.5,  jet-1.level-low.x, 10,   folded",
        "ADVISORY, 0.84, jet-1.level-low.x, 10,   folded",
        "CRITICAL, 0.84, jet-1.level-low.x, 1,    called",
        "WARNING,  0.49, jet-1.level-low.x, 1,    called",
        "WARNING,  0.84, jet-2.level-low.x, 1,    called",
        "WARNING,  0.84, jet-1.level-low.x, 10.1, called",
        "WARNING,  0.84, jet-1.signal-bad.x, 1,   called"
    })
    void what_is_graver_unlike_less_sure_or_late_calls(
            Grade grade, double weight, String alarm, double minute, String what) {
        raise(0, RATIO, Grade.WARNING, worn(0.84));

        raise(minute, alarm, grade, worn(weight));

        assertThat(foldedInto(alarm + "/1").isPresent()).isEqualTo(what.equals("folded"));
    }

    @Test
    void another_cause_calls_and_one_that_nobody_knows_too() {
        Optional<Diagnosis> unknown = Optional.of(Changes.why(Changes.suspect(Cause.UNKNOWN, 0.9)));
        raise(0, RATIO, Grade.WARNING, worn(0.84));
        raise(0.5, "jet-1.rise.x", Grade.WARNING, unknown);

        raise(1, LEVEL, Grade.WARNING, Optional.of(Changes.why(Changes.suspect(Cause.AIR, 0.9))));
        raise(1, "jet-1.inlet.x", Grade.WARNING, Optional.empty());
        raise(2, "jet-1.baseline.x", Grade.WARNING, unknown);

        assertThat(told("people")).hasSize(5);
    }

    @Test
    void in_one_run_they_are_together_however_long_it_lasts_and_in_the_next_not() {
        annunciator.feed(new Occasion.RunChanged("jet-1", OptionalLong.of(0)), each -> {});
        raise(1, RATIO, Grade.WARNING, worn(0.84));
        later(2, RATIO, 2, AlarmEvent.ACKNOWLEDGED, AlarmState.ACKNOWLEDGED);
        raise(100, LEVEL, Grade.WARNING, worn(0.84));
        annunciator.feed(
                new Occasion.RunChanged("jet-1", OptionalLong.of(200 * MINUTE)), each -> {});

        raise(201, "jet-1.baseline.x", Grade.WARNING, worn(0.84));

        assertThat(foldedInto(LEVEL + "/1")).contains(RATIO + "/1");
        assertThat(foldedInto("jet-1.baseline.x/1")).isEmpty();
    }

    @Test
    void alarms_of_one_signal_are_together_too_and_those_of_two_are_not() {
        Optional<Diagnosis> loop = Optional.of(Changes.why(Changes.suspect(Cause.OPEN_LOOP, 0.9)));
        raise(0, "jet-1.signal-bad.x", Grade.WARNING, loop);
        raise(1, "jet-1.signal-missing.x", Grade.WARNING, loop);
        AlarmChange inlet =
                change(
                        "jet-1.signal-stuck.x",
                        Channel.INLET,
                        1,
                        AlarmEvent.RAISED,
                        ACTIVE,
                        Grade.WARNING,
                        MINUTE);

        at(1, new Changed("jet-1", inlet, loop));

        assertThat(foldedInto("jet-1.signal-missing.x/1")).contains("jet-1.signal-bad.x/1");
        assertThat(foldedInto("jet-1.signal-stuck.x/1")).isEmpty();
    }

    @Test
    void one_that_gets_graver_than_the_first_calls() {
        raise(0, RATIO, Grade.WARNING, worn(0.84));
        raise(1, LEVEL, Grade.ADVISORY, worn(0.84));
        later(2, LEVEL, 2, AlarmEvent.WORSENED, ACTIVE, Grade.WARNING);

        later(3, LEVEL, 3, AlarmEvent.WORSENED, ACTIVE, Grade.CRITICAL);

        assertThat(told("people")).containsExactly(RATIO + "/1", LEVEL + "/3");
        assertThat(foldedInto(LEVEL + "/2")).contains(RATIO + "/1");
    }

    @Test
    void nobody_is_called_again_for_it_while_the_first_stands_for_it() {
        raise(0, RATIO, Grade.WARNING, worn(0.84));
        raise(1, LEVEL, Grade.WARNING, worn(0.84));

        pass(20);
        pass(35);

        assertThat(told("people")).containsExactly(RATIO + "/1", RATIO + "/1/again/1");
        assertThat(told("boss")).containsExactly(RATIO + "/1/escalated/1");
    }

    @Test
    void one_that_stays_when_the_first_goes_is_called_a_minute_later_and_again_after_that() {
        raise(0, RATIO, Grade.WARNING, worn(0.84));
        raise(1, LEVEL, Grade.WARNING, worn(0.84));
        later(40, RATIO, 2, AlarmEvent.ACKNOWLEDGED, AlarmState.ACKNOWLEDGED);
        later(50, RATIO, 3, AlarmEvent.RETURNED, AlarmState.NORMAL);
        pass(50.9);
        List<String> before = told("people");

        pass(51);
        pass(80.9);
        pass(81);

        assertThat(before).noneMatch(id -> id.startsWith(LEVEL));
        assertThat(told("people"))
                .filteredOn(id -> id.startsWith(LEVEL))
                .containsExactly(LEVEL + "/1/alone/1", LEVEL + "/1/again/1");
        assertThat(told("boss")).contains(LEVEL + "/1/escalated/1");
    }

    @Test
    void those_that_go_together_make_no_further_call() {
        raise(0, RATIO, Grade.WARNING, worn(0.84));
        raise(1, LEVEL, Grade.WARNING, worn(0.84));
        later(5, RATIO, 2, AlarmEvent.RETURNED, AlarmState.RETURNED_UNACKNOWLEDGED);

        later(5.8, LEVEL, 2, AlarmEvent.RETURNED, AlarmState.RETURNED_UNACKNOWLEDGED);
        pass(30);

        assertThat(told("people")).containsExactly(RATIO + "/1", RATIO + "/2", LEVEL + "/2");
    }

    @Test
    void first_that_eases_stands_for_it_no_more() {
        raise(0, RATIO, Grade.WARNING, worn(0.84));
        raise(1, LEVEL, Grade.WARNING, worn(0.84));

        later(5, RATIO, 2, AlarmEvent.EASED, ACTIVE, Grade.ADVISORY);
        pass(6);

        assertThat(told("people"))
                .containsExactly(RATIO + "/1", RATIO + "/2", LEVEL + "/1/alone/1");
    }

    @Test
    void of_several_that_stay_one_is_called_for_all() {
        raise(0, RATIO, Grade.WARNING, worn(0.84));
        raise(1, LEVEL, Grade.ADVISORY, worn(0.84));
        raise(2, "jet-1.baseline.x", Grade.WARNING, worn(0.84));

        later(5, RATIO, 2, AlarmEvent.SHELVED, AlarmState.SHELVED);
        pass(6);

        assertThat(told("people"))
                .containsExactly(RATIO + "/1", RATIO + "/2", "jet-1.baseline.x/1/alone/1");
    }

    @Test
    void whoever_was_not_called_for_the_first_is_called_for_the_second() {
        Annunciator few =
                new Annunciator(
                        Changes.site(
                                PressureUnit.PSI,
                                new RouteSettings.Log("one", called(Optional.empty(), 1))));
        AlarmChange other = change("jet-1.inlet.x", 1, AlarmEvent.RAISED, ACTIVE, Grade.WARNING, 0);
        AlarmChange first = change(RATIO, 1, AlarmEvent.RAISED, ACTIVE, Grade.WARNING, SECOND);
        AlarmChange second = change(LEVEL, 1, AlarmEvent.RAISED, ACTIVE, Grade.WARNING, MINUTE);

        Changes.owed(few, new Changed("jet-1", other));
        List<Notification> flooded = Changes.owed(few, new Changed("jet-1", first, worn(0.84)));
        List<Notification> next = Changes.owed(few, new Changed("jet-1", second, worn(0.84)));

        assertThat(flooded.get(0).foldedInto().orElseThrow()).contains("/more/");
        assertThat(next.get(0).foldedInto().orElseThrow()).contains("/more/");
    }

    @Test
    void call_of_one_that_is_alone_says_so_and_keeps_to_the_schema() throws Exception {
        Alone alone =
                new Alone(
                        "jet-1",
                        change(LEVEL, 1, AlarmEvent.RAISED, ACTIVE, Grade.WARNING, MINUTE),
                        worn(0.84),
                        OptionalLong.of(17));

        Message call = Changes.said(site, alone.id(), alone);

        assertThat(call.subject())
                .isEqualTo(
                        "WARNING (still) jet-1: boosted pressure low: worn booster likely, 84 %");
        assertThat(call.text())
                .contains("It was told with another alarm of the same cause, which no longer");
        ObjectMapper mapper = new ObjectMapper();
        assertThat(
                        SchemaCheck.problems(
                                mapper.readTree(
                                        Path.of("config/alarm-message.schema.json").toFile()),
                                mapper.readTree(call.json())))
                .isEmpty();
    }
}
