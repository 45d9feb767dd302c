package leat.service;

import static leat.alarm.AlarmEvent.RAISED;
import static leat.alarm.AlarmEvent.WORSENED;
import static leat.alarm.AlarmState.UNACKNOWLEDGED;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import leat.config.RoutePolicy;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.store.Message;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class GoneRoutesTest {

    private static final double SEVEN = 19 * 60;

    @TempDir Path folder;

    private PolicyRoom room;

    @BeforeEach
    void open() {
        room =
                new PolicyRoom(
                        folder,
                        PolicyRoom.route("hall", policy()),
                        PolicyRoom.route("yard", RoutePolicy.AT_ONCE));
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void what_a_renamed_route_is_owed_is_given_up_once_and_the_others_are_told() {
        room.change("jet-1", Rule.RATIO, 1, RAISED, UNACKNOWLEDGED, Grade.WARNING, 0);
        room.change("jet-2", Rule.RISE, 1, RAISED, UNACKNOWLEDGED, Grade.CRITICAL, 1);

        rename();
        rename();

        assertThat(room.ids("hall")).isEmpty();
        assertThat(room.ids("works"))
                .containsExactly(
                        "jet-1.ratio.x/1/undelivered/hall", "jet-2.rise.x/1/undelivered/hall");
        assertThat(room.ids("yard")).hasSize(4);
        Message notice = room.due("works").get(0);
        assertThat(notice.kind()).isEqualTo(Message.Purpose.NOTICE);
        assertThat(notice.subject()).isEqualTo("NOT DELIVERED jet-1: 1 message on route hall");
        assertThat(notice.text())
                .contains(
                        "Why: site.yaml has no route of this name any more\n",
                        "- 2026-01-05 12:00:00 +01:00: WARNING jet-1: weak boost, 1.62 times\n");
    }

    @Test
    void what_was_folded_for_it_is_given_up_too_and_never_told() {
        room.change("jet-1", Rule.RATIO, 1, RAISED, UNACKNOWLEDGED, Grade.ADVISORY, 0);
        IntStream.rangeClosed(2, 5)
                .forEach(
                        n ->
                                room.change(
                                        "jet-1",
                                        Rule.RISE,
                                        n,
                                        WORSENED,
                                        UNACKNOWLEDGED,
                                        Grade.WARNING,
                                        1));

        rename();
        room.second(SEVEN);
        rename();
        room.second(2 * SEVEN);

        assertThat(room.ids("hall")).isEmpty();
        assertThat(room.ids("works")).containsExactly("jet-1.rise.x/2/undelivered/hall");
        assertThat(room.due("works").get(0).json())
                .contains("\"jet-1.ratio.x/1\"", "\"jet-1.rise.x/5\"");
    }

    @Test
    void thousands_are_given_up_in_slices() {
        room.restart(
                PolicyRoom.route("hall", RoutePolicy.AT_ONCE),
                PolicyRoom.route("yard", RoutePolicy.AT_ONCE));
        room.changes(1_200);

        rename();

        assertThat(room.ids("hall")).isEmpty();
        assertThat(notices()).hasSize(3);
        assertThat(notices().get(0).subject()).startsWith("NOT DELIVERED jet-1: 500 messages");
        assertThat(notices().get(2).subject()).startsWith("NOT DELIVERED jet-1: 200 messages");
    }

    @Test
    void what_the_routes_of_the_site_are_owed_stays() {
        room.change("jet-1", Rule.RATIO, 1, RAISED, UNACKNOWLEDGED, Grade.ADVISORY, 0);
        room.restart();

        room.second(SEVEN);

        assertThat(room.ids("yard")).containsExactly("jet-1.ratio.x/1");
        assertThat(room.ids("hall")).containsExactly("digest/2026-01-06/hall");
    }

    private List<Message> notices() {
        return room.due("works");
    }

    private void rename() {
        room.restart(
                PolicyRoom.route("works", policy()), PolicyRoom.route("yard", RoutePolicy.AT_ONCE));
    }

    /** Two messages in ten minutes, and advisories once a day. */
    private static RoutePolicy policy() {
        return new RoutePolicy(
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                OptionalInt.of(2),
                Optional.empty(),
                Optional.of(LocalTime.of(7, 0)));
    }
}
