package leat.service;

import static leat.alarm.AlarmEvent.ACKNOWLEDGED;
import static leat.alarm.AlarmEvent.RAISED;
import static leat.alarm.AlarmEvent.RETURNED;
import static leat.alarm.AlarmEvent.SHELVED;
import static leat.alarm.AlarmEvent.WORSENED;
import static leat.alarm.AlarmState.UNACKNOWLEDGED;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.QuietHours;
import leat.config.RoutePolicy;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.store.Message;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The shift is told at once and each hour again; the manager after half an hour, then each hour.
 */
class RemindersTest {

    @TempDir Path folder;

    private PolicyRoom room;

    @BeforeEach
    void open() {
        Optional<Duration> hour = Optional.of(Duration.ofHours(1));
        Optional<Duration> half = Optional.of(Duration.ofMinutes(30));
        room =
                new PolicyRoom(
                        folder,
                        PolicyRoom.route(
                                "shift",
                                new RoutePolicy(
                                        Optional.empty(),
                                        Optional.empty(),
                                        hour,
                                        OptionalInt.empty(),
                                        Optional.empty())),
                        PolicyRoom.route(
                                "manager",
                                new RoutePolicy(
                                        Optional.empty(),
                                        half,
                                        hour,
                                        OptionalInt.empty(),
                                        Optional.empty())));
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void manager_is_called_when_nobody_has_acknowledged_for_half_an_hour_and_then_hourly() {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);

        IntStream.rangeClosed(0, 160).forEach(minute -> room.second(minute));

        assertThat(room.ids("shift"))
                .containsExactly(
                        "jet-1.ratio.x/1", "jet-1.ratio.x/1/again/1", "jet-1.ratio.x/1/again/2");
        assertThat(room.ids("manager"))
                .containsExactly(
                        "jet-1.ratio.x/1/escalated/1",
                        "jet-1.ratio.x/1/again/1",
                        "jet-1.ratio.x/1/again/2");
        assertThat(room.due("manager").get(1).atMicros())
                .isEqualTo(PolicyRoom.NOON + 90 * PolicyRoom.MINUTE);
    }

    @ParameterizedTest
    @ValueSource(ints = {-1_440, -60, 1_440})
    void who_waits_is_called_after_the_same_time_whatever_the_clock_is_set_to(int byMinutes) {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);
        IntStream.rangeClosed(0, 20).forEach(minute -> room.second(minute));
        room.setClock("jet-1", 20, 20 + byMinutes);
        room.setClock("jet-2", 20, 90_000);

        IntStream.rangeClosed(21, 61).forEach(minute -> room.second(minute + byMinutes));

        assertThat(room.ids("manager")).containsExactly("jet-1.ratio.x/1/escalated/1");
        assertThat(room.ids("shift")).containsExactly("jet-1.ratio.x/1", "jet-1.ratio.x/1/again/1");
        assertThat(room.due("manager").get(0).atMicros())
                .isEqualTo(PolicyRoom.NOON + (30 + byMinutes) * PolicyRoom.MINUTE);
    }

    @Test
    void second_before_the_half_hour_nobody_is_called_yet() {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);

        room.second(29.98);

        assertThat(room.ids("manager")).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(
            value = AlarmState.class,
            names = {
                "ACKNOWLEDGED",
                "RETURNED_UNACKNOWLEDGED",
                "SHELVED",
                "SUPPRESSED",
                "OUT_OF_SERVICE"
            })
    void what_somebody_looks_after_or_what_has_gone_is_told_no_more(AlarmState state) {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.CRITICAL, 0);
        room.change(2, event(state), state, Grade.CRITICAL, 20);

        IntStream.rangeClosed(20, 200).forEach(minute -> room.second(minute));

        assertThat(room.ids("manager")).isEmpty();
        assertThat(room.ids("shift")).containsExactly("jet-1.ratio.x/1", "jet-1.ratio.x/2");
    }

    @Test
    void manager_who_was_called_hears_of_the_end() {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);
        room.second(30);
        room.change(2, ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, Grade.WARNING, 35);

        assertThat(room.ids("manager"))
                .containsExactly("jet-1.ratio.x/1/escalated/1", "jet-1.ratio.x/2");
    }

    @Test
    void advisory_is_neither_escalated_nor_repeated() {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.ADVISORY, 0);

        IntStream.rangeClosed(0, 200).forEach(minute -> room.second(minute));

        assertThat(room.ids("manager")).isEmpty();
        assertThat(room.ids("shift")).containsExactly("jet-1.ratio.x/1");
    }

    @Test
    void alarm_that_gets_worse_does_not_set_the_time_back() {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);
        room.change(2, WORSENED, UNACKNOWLEDGED, Grade.CRITICAL, 29);

        room.second(30);

        Message call = room.due("manager").get(0);
        assertThat(call.id()).isEqualTo("jet-1.ratio.x/1/escalated/1");
        assertThat(call.grade()).isEqualTo(Grade.CRITICAL);
    }

    @Test
    void restart_within_a_period_repeats_nothing_and_loses_no_period() {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);
        IntStream.rangeClosed(0, 59).forEach(minute -> room.second(minute));
        room.restart();
        IntStream.rangeClosed(59, 61).forEach(minute -> room.second(minute));
        room.restart();
        IntStream.rangeClosed(61, 95).forEach(minute -> room.second(minute));

        assertThat(room.ids("shift")).containsExactly("jet-1.ratio.x/1", "jet-1.ratio.x/1/again/1");
        assertThat(room.ids("manager"))
                .containsExactly("jet-1.ratio.x/1/escalated/1", "jet-1.ratio.x/1/again/1");
    }

    @Test
    void restart_forgets_no_alarm_of_which_nobody_was_told_yet() {
        Optional<Duration> half = Optional.of(Duration.ofMinutes(30));
        room.restart(
                PolicyRoom.route(
                        "manager",
                        new RoutePolicy(
                                Optional.empty(),
                                half,
                                Optional.empty(),
                                OptionalInt.empty(),
                                Optional.empty())));
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);
        room.restart();

        room.second(30);

        assertThat(room.ids("manager")).containsExactly("jet-1.ratio.x/1/escalated/1");
    }

    @Test
    void leat_that_was_down_over_several_periods_calls_once() {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);
        room.restart();

        room.second(200);

        assertThat(room.ids("shift")).containsExactly("jet-1.ratio.x/1", "jet-1.ratio.x/1/again/3");
        assertThat(room.ids("manager")).containsExactly("jet-1.ratio.x/1/again/2");
    }

    @Test
    void call_that_is_told_again_says_since_when_nobody_answers_and_all_that_a_call_says()
            throws Exception {
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);

        room.second(60);

        Message again = room.due("shift").get(1);
        assertThat(again.subject())
                .startsWith("WARNING (still not acknowledged) jet-1: ")
                .endsWith(", 1.62 times");
        assertThat(again.text())
                .contains("Nobody has acknowledged it since 2026-01-05 12:00:00 +01:00.")
                .contains("Should be: ", "Check first:\n1. ", "Caution: ")
                .endsWith("Alarm 1, message jet-1.ratio.x/1/again/1.");
        assertThat(again.kind()).isEqualTo(Message.Purpose.CALL);
        assertThat(again.event()).isEqualTo("again");
        assertThat(new ObjectMapper().readTree(again.json()).path("event").textValue())
                .isEqualTo("again");
    }

    @Test
    void night_has_no_calls_again_but_of_what_is_critical_and_the_morning_one_of_each() {
        RoutePolicy nights =
                new RoutePolicy(
                        Optional.of(new QuietHours(LocalTime.of(22, 0), LocalTime.of(6, 0))),
                        Optional.empty(),
                        Optional.of(Duration.ofHours(1)),
                        OptionalInt.empty(),
                        Optional.empty());
        room.restart(PolicyRoom.route("shift", nights));
        int tenAtNight = 10 * 60;
        int sixInTheMorning = 18 * 60;
        room.change("jet-1", Rule.RATIO, 1, RAISED, UNACKNOWLEDGED, Grade.WARNING, tenAtNight - 30);
        room.change(
                "jet-1", Rule.INLET, 1, RAISED, UNACKNOWLEDGED, Grade.CRITICAL, tenAtNight - 30);
        IntStream.range(tenAtNight - 30, sixInTheMorning).forEach(minute -> room.second(minute));
        List<String> night = room.ids("shift");

        room.second(sixInTheMorning);
        room.second(sixInTheMorning + 1);

        assertThat(night)
                .filteredOn(id -> id.contains("/again/"))
                .hasSize(8)
                .allMatch(id -> id.startsWith("jet-1.inlet.x/1/again/"));
        assertThat(room.ids("shift")).hasSize(11).endsWith("jet-1.ratio.x/1/again/8");
    }

    @Test
    void what_was_acknowledged_at_night_is_not_escalated_in_the_morning() {
        RoutePolicy nights =
                new RoutePolicy(
                        Optional.of(new QuietHours(LocalTime.of(22, 0), LocalTime.of(6, 0))),
                        Optional.of(Duration.ofMinutes(30)),
                        Optional.empty(),
                        OptionalInt.empty(),
                        Optional.empty());
        room.restart(PolicyRoom.route("manager", nights));
        int midnight = 12 * 60;
        room.change(1, RAISED, UNACKNOWLEDGED, Grade.WARNING, midnight);
        room.second(midnight + 31);
        room.change(2, ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, Grade.WARNING, midnight + 40);

        room.second(18 * 60);

        assertThat(room.ids("manager")).isEmpty();
    }

    private static AlarmEvent event(AlarmState state) {
        return switch (state) {
            case ACKNOWLEDGED -> ACKNOWLEDGED;
            case RETURNED_UNACKNOWLEDGED -> RETURNED;
            case SHELVED -> SHELVED;
            case SUPPRESSED -> AlarmEvent.SUPPRESSED;
            case OUT_OF_SERVICE -> AlarmEvent.REMOVED;
            case NORMAL, UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, LATCHED_ACKNOWLEDGED ->
                    throw new IllegalArgumentException(state.key());
        };
    }
}
