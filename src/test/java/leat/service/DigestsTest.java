package leat.service;

import static leat.alarm.AlarmEvent.ACKNOWLEDGED;
import static leat.alarm.AlarmEvent.EASED;
import static leat.alarm.AlarmEvent.RAISED;
import static leat.alarm.AlarmEvent.RETURNED;
import static leat.alarm.AlarmEvent.SHELVED;
import static leat.alarm.AlarmEvent.WORSENED;
import static leat.alarm.AlarmState.NORMAL;
import static leat.alarm.AlarmState.RETURNED_UNACKNOWLEDGED;
import static leat.alarm.AlarmState.UNACKNOWLEDGED;
import static leat.service.PolicyRoom.minute;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import leat.alarm.AlarmState;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.store.Message;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The shift is told of advisories at 07:00 in Berlin, which is 1140 minutes after noon. */
class DigestsTest {

    private static final Grade ADVISORY = Grade.ADVISORY;
    private static final double SEVEN = 19 * 60;
    private static final double DAY = 24 * 60;
    private static final String FIRST = "digest/2026-01-06/shift";
    private static final String SECOND = "digest/2026-01-07/shift";

    @TempDir Path folder;

    private PolicyRoom room;

    @BeforeEach
    void open() {
        room = new PolicyRoom(folder, shift("07:00"), PolicyRoom.route("all", RoutePolicy.AT_ONCE));
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void what_came_of_advisories_waits_and_is_told_in_one_message_at_its_time() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        raise("jet-2", Rule.RISE, Grade.ADVISORY, 30);
        room.change("jet-1", Rule.RATIO, 2, ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, ADVISORY, 130);
        room.change("jet-2", Rule.RISE, 2, RETURNED, RETURNED_UNACKNOWLEDGED, ADVISORY, 41);
        room.second(SEVEN - 0.01);
        List<String> before = room.ids("shift");

        room.second(SEVEN);
        room.second(SEVEN + 0.01);

        assertThat(before).isEmpty();
        assertThat(room.ids("shift")).containsExactly(FIRST);
        assertThat(room.ids("all")).hasSize(4);
        Message digest = room.due("shift").get(0);
        assertThat(digest.subject())
                .isEqualTo("1 advisory stands, 1 has gone: Boatyard, 2026-01-06");
        assertThat(digest.grade()).isEqualTo(Grade.ADVISORY);
        assertThat(digest.kind()).isEqualTo(Message.Purpose.NEWS);
        assertThat(digest.text())
                .startsWith(
                        """
                        ADVISORY: look at it at the next service.
                        Boatyard: 1 advisory stands, 1 has gone.
                        Stands now:
                        - 2026-01-05 12:00:00 +01:00: ADVISORY jet-1: weak boost, 1.62 times
                          2026-01-05 14:10:00 +01:00: acknowledged jet-1: weak boost
                        Has gone meanwhile:
                        - 2026-01-05 12:30:00 +01:00: ADVISORY jet-2: slow rise, 1.62 times
                          2026-01-05 12:41:00 +01:00: back to normal jet-2: slow rise
                          Nobody has acknowledged it yet.

                        ADVISORY jet-1: weak boost, 1.62 times (at least 2.00 times) since 12:00. leat ack 1
                        Boatyard, jet-1: look at it at the next service.
                        """)
                .contains("Should be: at least 2.00 times.", "Check first:\n1. ", "Caution: ")
                .endsWith("Message digest/2026-01-06/shift.");
    }

    @Test
    void day_without_any_has_no_message() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);

        IntStream.rangeClosed(0, 72).forEach(hour -> room.second(60 * hour));

        assertThat(room.ids("shift")).containsExactly(FIRST);
    }

    @Test
    void advisory_that_gets_worse_is_told_at_once_and_so_are_its_later_news() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        room.change(2, WORSENED, UNACKNOWLEDGED, Grade.WARNING, 10);
        List<String> worse = room.ids("shift");
        room.change(3, EASED, UNACKNOWLEDGED, Grade.ADVISORY, 20);
        room.restart();
        room.change(4, RETURNED, RETURNED_UNACKNOWLEDGED, Grade.ADVISORY, 30);

        room.second(SEVEN);

        assertThat(worse).containsExactly("jet-1.ratio.x/2");
        assertThat(room.ids("shift"))
                .containsExactly("jet-1.ratio.x/2", "jet-1.ratio.x/3", "jet-1.ratio.x/4", FIRST);
        assertThat(room.due("shift").get(3).subject())
                .startsWith("no advisory stands, 1 has gone: ");
    }

    @Test
    void digest_says_what_is_graver_what_is_put_aside_and_what_was_told_earlier() {
        raise("jet-2", Rule.REST, Grade.ADVISORY, 0);
        room.second(SEVEN);
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, DAY);
        room.change(2, WORSENED, UNACKNOWLEDGED, Grade.WARNING, DAY + 1);
        raise("jet-1", Rule.RISE, Grade.ADVISORY, DAY + 2);
        shelve(Rule.RISE, DAY + 3);

        room.second(SEVEN + DAY);

        Message digest = room.due("shift").get(2);
        assertThat(digest.id()).isEqualTo(SECOND);
        assertThat(digest.subject())
                .isEqualTo("1 advisory stands, 1 got graver, 1 is put aside: Boatyard, 2026-01-07");
        assertThat(digest.text())
                .isEqualTo(
                        """
                        ADVISORY: look at it at the next service.
                        Boatyard: 1 advisory stands, 1 got graver, 1 is put aside.
                        Nothing new of what stands: 1, told earlier.
                        Got graver and was told at once:
                        - 2026-01-06 12:00:00 +01:00: ADVISORY jet-1: weak boost, 1.62 times
                        There, but put aside:
                        - 2026-01-06 12:02:00 +01:00: ADVISORY jet-1: slow rise, 1.62 times
                          2026-01-06 12:03:00 +01:00: shelved jet-1: slow rise
                        leat alarms shows what stands and its NUMBER; leat ack NUMBER says that you have seen it.
                        Caution: Before any work: site's procedure, local codes, qualified people. leat is no safety device.
                        Message digest/2026-01-07/shift.""");
    }

    @Test
    void alarm_that_is_over_and_comes_again_as_advisory_waits_again_also_after_a_restart() {
        raise("jet-1", Rule.RATIO, Grade.WARNING, 0);
        room.change(2, ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, Grade.WARNING, 1);
        room.change(3, RETURNED, NORMAL, Grade.WARNING, 2);
        room.change(4, RAISED, UNACKNOWLEDGED, Grade.ADVISORY, 3);
        room.restart();
        room.change(5, RETURNED, RETURNED_UNACKNOWLEDGED, Grade.ADVISORY, 4);

        room.second(SEVEN);

        assertThat(room.ids("shift"))
                .containsExactly("jet-1.ratio.x/1", "jet-1.ratio.x/2", "jet-1.ratio.x/3", FIRST);
    }

    @Test
    void restart_and_kill_before_the_commit_lose_nothing_and_tell_nothing_twice() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        room.restart();
        raise("jet-2", Rule.RISE, Grade.ADVISORY, 30);
        room.lose(SEVEN);
        room.lose(SEVEN + 1);
        List<String> lost = room.ids("shift");
        room.second(SEVEN + 2);
        room.restart();
        room.second(SEVEN + 3);

        assertThat(lost).isEmpty();
        assertThat(room.ids("shift")).containsExactly(FIRST);
        assertThat(room.due("shift").get(0).subject()).startsWith("2 advisories stand: ");
    }

    @Test
    void leat_that_was_down_at_that_time_tells_it_when_it_is_back() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        room.restart();

        room.second(SEVEN + 3 * DAY + 77);

        assertThat(room.ids("shift")).containsExactly(FIRST);
    }

    @Test
    void digest_comes_before_the_flood_and_leaves_its_places_to_what_is_graver() {
        room.restart(PolicyRoom.route("shift", atMost(2).withAdvisories(LocalTime.of(7, 0))));
        IntStream.rangeClosed(1, 9)
                .forEach(
                        n ->
                                room.change(
                                        "jet-1",
                                        Rule.REST,
                                        n,
                                        RAISED,
                                        UNACKNOWLEDGED,
                                        ADVISORY,
                                        1));
        room.restart(PolicyRoom.route("shift", atMost(2).withAdvisories(LocalTime.of(7, 0))));
        IntStream.rangeClosed(1, 3)
                .forEach(n -> room.change(n, WORSENED, UNACKNOWLEDGED, Grade.WARNING, 2));
        room.second(10);

        room.second(SEVEN);

        assertThat(room.ids("shift"))
                .containsExactly(
                        "jet-1.ratio.x/1", "jet-1.ratio.x/2", "jet-1/more/20260105T110000Z", FIRST);
        assertThat(room.due("shift").get(2).subject()).isEqualTo("WARNING jet-1: weak boost");
        assertThat(room.due("shift").get(3).text()).contains("  and 5 messages in between");
    }

    @Test
    void route_that_is_told_one_by_one_from_now_on_is_told_at_once_what_had_waited() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        room.restart(
                PolicyRoom.route("shift", RoutePolicy.AT_ONCE),
                PolicyRoom.route("all", RoutePolicy.AT_ONCE));

        room.second(5);
        room.change(2, RETURNED, RETURNED_UNACKNOWLEDGED, Grade.ADVISORY, 6);

        assertThat(room.ids("shift")).containsExactly(FIRST, "jet-1.ratio.x/2");
    }

    @Test
    void other_time_of_the_day_holds_for_what_waits_already() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        room.restart(shift("17:00"), PolicyRoom.route("all", RoutePolicy.AT_ONCE));
        room.second(1);

        raise("jet-1", Rule.RISE, Grade.ADVISORY, 2);
        room.second(5 * 60);

        assertThat(room.ids("shift")).containsExactly(FIRST, "digest/2026-01-05/shift");
    }

    @Test
    void clock_that_is_set_back_loses_nothing() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        room.second(SEVEN);
        raise("jet-1", Rule.RISE, Grade.ADVISORY, SEVEN - 30);
        room.restart();
        raise("jet-1", Rule.REST, Grade.ADVISORY, SEVEN + 100 * DAY);
        room.second(SEVEN - 20);

        room.second(SEVEN);

        assertThat(room.ids("shift"))
                .containsExactly(FIRST, "digest/2026-04-17/shift", FIRST + "/2");
    }

    @Test
    void digest_keeps_to_the_clock_of_the_site_when_the_clocks_change() {
        room.restart(shift("02:30"));
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, minute("2026-03-28T20:00:00Z"));
        room.second(minute("2026-03-29T01:29:59Z"));
        List<String> before = room.ids("shift");
        room.second(minute("2026-03-29T01:30:00Z"));
        raise("jet-1", Rule.RISE, Grade.ADVISORY, minute("2026-10-25T00:29:59Z"));
        room.second(minute("2026-10-25T00:30:00Z"));
        raise("jet-1", Rule.REST, Grade.ADVISORY, minute("2026-10-25T00:30:01Z"));

        room.second(minute("2026-10-25T01:30:00Z"));

        assertThat(before).isEmpty();
        assertThat(room.ids("shift"))
                .containsExactly("digest/2026-03-29/shift", "digest/2026-10-25/shift");
    }

    @Test
    void report_of_the_day_and_digest_may_have_the_same_time() {
        RoutePolicy both =
                new RoutePolicy(
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        OptionalInt.empty(),
                        Optional.of(LocalTime.of(7, 0)),
                        Optional.of(LocalTime.of(7, 0)));
        room.restart(PolicyRoom.route("shift", both));
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);

        room.second(SEVEN);

        assertThat(room.ids("shift")).containsExactly(FIRST, "all-is-well/2026-01-06");
    }

    @Test
    void route_of_some_machines_gets_a_digest_of_these() throws Exception {
        RouteScope one =
                new RouteScope(
                        Grade.ADVISORY,
                        List.of("jet-1"),
                        Duration.ofHours(72),
                        RoutePolicy.AT_ONCE.withAdvisories(LocalTime.of(7, 0)));
        room.restart(shift("07:00"), new RouteSettings.Log("one", one));
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        raise("jet-2", Rule.RISE, Grade.ADVISORY, 1);

        room.second(SEVEN);

        Message all = room.due("shift").get(0);
        Message only = room.due("one").get(0);
        assertThat(all.machine()).isEqualTo("all");
        assertThat(only.machine()).isEqualTo("jet-1");
        assertThat(only.id()).isEqualTo("digest/2026-01-06/one");
        assertThat(only.text()).doesNotContain("jet-2");
        assertThat(new ObjectMapper().readTree(all.json()).path("alarms").findValuesAsText("now"))
                .containsExactly("stands", "stands");
    }

    @Test
    void old_messages_are_deleted_only_when_they_have_been_told() {
        raise("jet-1", Rule.RATIO, Grade.ADVISORY, 0);
        room.change(2, ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, Grade.ADVISORY, 1);
        room.change(3, RETURNED, NORMAL, Grade.ADVISORY, 2);
        raise("jet-1", Rule.REST, Grade.ADVISORY, 3);
        room.prune();
        room.restart();
        room.second(SEVEN);
        List<Message> told = room.due("shift");
        room.deliver("shift", SEVEN + 1);
        room.prune();
        room.restart();

        room.second(SEVEN + 2 * DAY);

        assertThat(told).hasSize(1);
        assertThat(told.get(0).subject()).startsWith("1 advisory stands, 1 has gone: ");
        assertThat(room.ids("shift")).as("the other alarm still stands").isEmpty();
    }

    private void raise(String machine, Rule rule, Grade grade, double minute) {
        room.change(machine, rule, 1, RAISED, UNACKNOWLEDGED, grade, minute);
    }

    private void shelve(Rule rule, double minute) {
        room.hold("jet-1", rule, 2, SHELVED, AlarmState.SHELVED, UNACKNOWLEDGED, minute);
    }

    private static RouteSettings shift(String time) {
        return PolicyRoom.route("shift", RoutePolicy.AT_ONCE.withAdvisories(LocalTime.parse(time)));
    }

    private static RoutePolicy atMost(int most) {
        return new RoutePolicy(
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                OptionalInt.of(most),
                Optional.empty());
    }
}
