package leat.service;

import static leat.alarm.AlarmEvent.RAISED;
import static leat.alarm.AlarmEvent.RETURNED;
import static leat.alarm.AlarmState.RETURNED_UNACKNOWLEDGED;
import static leat.alarm.AlarmState.UNACKNOWLEDGED;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.RoutePolicy;
import leat.rule.Grade;
import leat.rule.Rule;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A store whose leat wrote down no state of who is told when, or one that cannot be read: nobody is
 * told twice, and nothing is lost.
 */
class StateLostTest {

    private static final String NONE = "DELETE FROM annunciator";
    private static final String DAMAGED = "UPDATE annunciator SET state = x'6c656174'";
    private static final double SEVEN = 19 * 60;

    @TempDir Path folder;

    private PolicyRoom room;

    @BeforeEach
    void open() {
        room =
                new PolicyRoom(
                        folder,
                        PolicyRoom.route("shift", shift()),
                        PolicyRoom.route("manager", manager()));
    }

    @AfterEach
    void close() {
        room.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {NONE, DAMAGED})
    void what_was_folded_is_told_by_itself_and_what_was_told_is_not_told_again(String lost) {
        room.change("jet-1", Rule.RATIO, 1, RAISED, UNACKNOWLEDGED, Grade.ADVISORY, 0);
        worsen("jet-1", 1, 5);

        room.restartAfter(lost);
        List<String> after = room.ids("shift");
        room.second(11);
        room.second(SEVEN);

        assertThat(after)
                .containsExactly(
                        "jet-1.ratio.x/1",
                        "jet-1.rise.x/1",
                        "jet-1.rise.x/2",
                        "jet-1.rise.x/3",
                        "jet-1.rise.x/4",
                        "jet-1.rise.x/5");
        assertThat(room.ids("shift")).hasSize(7).endsWith("jet-1.rise.x/1/again/18");
    }

    @ParameterizedTest
    @ValueSource(strings = {NONE, DAMAGED})
    void who_heard_that_an_alarm_came_hears_that_it_goes(String lost) {
        room.change("jet-1", Rule.RATIO, 1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);
        room.second(30);
        room.second(60);

        room.restartAfter(lost);
        room.second(61);
        room.change(2, AlarmEvent.ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, Grade.ADVISORY, 62);

        assertThat(room.ids("shift"))
                .containsExactly("jet-1.ratio.x/1", "jet-1.ratio.x/1/again/1", "jet-1.ratio.x/2");
        assertThat(room.ids("manager"))
                .containsExactly("jet-1.ratio.x/1/escalated/1", "jet-1.ratio.x/2");
    }

    @ParameterizedTest
    @ValueSource(strings = {NONE, DAMAGED})
    void what_is_folded_into_an_hour_that_was_told_before_has_a_message_of_its_own(String lost) {
        worsen("jet-1", 1, 5);
        room.change("jet-2", Rule.RATIO, 1, RAISED, UNACKNOWLEDGED, Grade.ADVISORY, 6);
        room.second(10);
        room.second(SEVEN);
        int told = room.ids("shift").size();

        room.restartAfter(lost);
        worsen("jet-2", 1, 5);
        room.change("jet-2", Rule.REST, 1, RAISED, UNACKNOWLEDGED, Grade.ADVISORY, 6);
        room.change("jet-2", Rule.REST, 2, RETURNED, RETURNED_UNACKNOWLEDGED, Grade.ADVISORY, 7);
        room.second(10);
        room.second(SEVEN);

        List<String> again = room.ids("shift").subList(told, room.ids("shift").size());
        assertThat(again)
                .filteredOn(id -> id.contains("digest") || id.contains("more"))
                .hasSize(2)
                .anyMatch(id -> id.matches("digest/2026-01-06/shift/\\d{10}"))
                .anyMatch(id -> id.matches("jet-2/more/20260105T110000Z/\\d{10}"));
    }

    private void worsen(String machine, int from, int to) {
        IntStream.rangeClosed(from, to)
                .forEach(
                        n ->
                                room.change(
                                        machine,
                                        Rule.RISE,
                                        n,
                                        n == 1 ? RAISED : AlarmEvent.WORSENED,
                                        UNACKNOWLEDGED,
                                        Grade.WARNING,
                                        1));
    }

    /** Two messages in ten minutes, advisories at seven, each hour again. */
    private static RoutePolicy shift() {
        return new RoutePolicy(
                Optional.empty(),
                Optional.empty(),
                Optional.of(Duration.ofHours(1)),
                OptionalInt.of(2),
                Optional.empty(),
                Optional.of(LocalTime.of(7, 0)));
    }

    private static RoutePolicy manager() {
        return new RoutePolicy(
                Optional.empty(),
                Optional.of(Duration.ofMinutes(30)),
                Optional.empty(),
                OptionalInt.empty(),
                Optional.empty());
    }
}
