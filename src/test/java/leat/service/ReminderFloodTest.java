package leat.service;

import static leat.alarm.AlarmState.UNACKNOWLEDGED;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import leat.alarm.AlarmEvent;
import leat.config.RoutePolicy;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.store.Message;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Ten alarms of one machine stand, and nobody acknowledges any: a hundred calls in ten minutes. */
class ReminderFloodTest {

    private static final String FIRST = "jet-1/more/20260105T110000Z";
    private static final String SECOND = "jet-1/more/20260105T111000Z";

    @TempDir Path folder;

    private PolicyRoom room;

    @BeforeEach
    void open() {
        Optional<Duration> minute = Optional.of(Duration.ofMinutes(1));
        room =
                new PolicyRoom(
                        folder,
                        PolicyRoom.route("shift", policy(Optional.empty(), minute, 10)),
                        PolicyRoom.route(
                                "manager",
                                policy(Optional.of(Duration.ofMinutes(12)), Optional.empty(), 7)));
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void hundred_calls_again_in_ten_minutes_become_those_of_pressures_and_one() {
        raiseAll(Grade.WARNING, 0);
        minutes(1, 9);
        List<String> first = room.ids("shift");
        minutes(10, 19);

        room.second(20);

        Message more = room.due("shift").get(17);
        assertThat(first).hasSize(8).noneMatch(id -> id.contains("/again/"));
        assertThat(room.ids("shift").subList(8, 18))
                .startsWith(FIRST)
                .endsWith(SECOND)
                .filteredOn(id -> id.contains("/again/10"))
                .hasSize(8);
        assertThat(more.subject()).endsWith(" and 91 more messages");
        assertThat(more.grade()).isEqualTo(Grade.WARNING);
    }

    @Test
    void restart_in_it_changes_nothing() {
        raiseAll(Grade.WARNING, 0);
        for (int minute = 1; minute <= 19; minute++) {
            room.lose(minute);
            room.second(minute);
            room.restart();
        }

        room.second(20);

        assertThat(room.ids("shift")).hasSize(26).contains(FIRST);
        assertThat(room.due("shift").get(17).id()).isEqualTo(SECOND);
        assertThat(room.due("shift").get(17).subject()).endsWith(" and 91 more messages");
    }

    @Test
    void critical_is_called_again_by_itself_however_many_there_are() {
        raiseAll(Grade.CRITICAL, 0);

        minutes(1, 10);

        assertThat(room.ids("shift")).hasSize(110).doesNotContain(FIRST);
    }

    @Test
    void what_is_new_is_told_at_once_though_ten_were_called_again() {
        raiseAll(Grade.WARNING, 0);
        minutes(1, 13);

        room.change("jet-1", Rule.RATIO, 2, AlarmEvent.EASED, UNACKNOWLEDGED, Grade.ADVISORY, 13.5);

        assertThat(room.ids("shift")).endsWith("jet-1.ratio.x/2");
    }

    @Test
    void calls_that_nobody_answers_go_to_the_manager_up_to_the_limit_and_the_rest_in_one() {
        raiseAll(Grade.WARNING, 0);
        room.change(
                "jet-1",
                Rule.SIGNAL_BAD,
                2,
                AlarmEvent.WORSENED,
                UNACKNOWLEDGED,
                Grade.CRITICAL,
                1);
        minutes(12, 19);

        room.second(20);

        assertThat(room.ids("manager"))
                .hasSize(9)
                .contains("jet-1.signal-bad.x/1/escalated/1")
                .endsWith(SECOND);
        assertThat(room.due("manager").get(8).subject()).endsWith(" and 1 more message");
    }

    private void minutes(int from, int to) {
        IntStream.rangeClosed(from, to).forEach(minute -> room.second(minute));
    }

    /** Ten alarms. */
    private void raiseAll(Grade grade, double minute) {
        for (Rule rule : List.of(Rule.values()).subList(0, 10)) {
            room.change("jet-1", rule, 1, AlarmEvent.RAISED, UNACKNOWLEDGED, grade, minute);
        }
    }

    private static RoutePolicy policy(
            Optional<Duration> escalateAfter, Optional<Duration> repeatEvery, int atMost) {
        return new RoutePolicy(
                Optional.empty(),
                escalateAfter,
                repeatEvery,
                OptionalInt.of(atMost),
                Optional.empty());
    }
}
