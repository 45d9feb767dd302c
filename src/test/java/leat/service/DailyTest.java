package leat.service;

import static leat.service.PolicyRoom.minute;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.rule.Grade;
import leat.store.Message;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Berlin: the clocks went forward on 2026-03-29 and back on 2026-10-25, at 01:00 UTC. */
class DailyTest {

    @TempDir Path folder;

    @Test
    void report_comes_once_a_day_at_its_time_also_over_a_restart() {
        try (PolicyRoom room = new PolicyRoom(folder, shift("07:00"))) {
            room.second(minute("2026-01-06T05:59:59Z"));
            List<String> before = room.ids("shift");
            room.second(minute("2026-01-06T06:00:00Z"));
            room.second(minute("2026-01-06T06:00:01Z"));
            room.restart();
            room.second(minute("2026-01-06T20:00:00Z"));
            room.second(minute("2026-01-07T06:00:00Z"));

            assertThat(before).isEmpty();
            assertThat(room.ids("shift"))
                    .containsExactly("all-is-well/2026-01-06", "all-is-well/2026-01-07");
        }
    }

    @Test
    void report_that_fell_into_a_time_without_leat_comes_late_on_the_same_day() {
        try (PolicyRoom room = new PolicyRoom(folder, shift("07:00"))) {
            room.second(minute("2026-01-06T09:12:00Z"));

            assertThat(room.ids("shift")).containsExactly("all-is-well/2026-01-06");
        }
    }

    @Test
    void report_keeps_to_the_clock_of_the_site_when_the_clocks_change() {
        try (PolicyRoom room = new PolicyRoom(folder, shift("07:00"))) {
            room.second(minute("2026-03-29T04:59:59Z"));
            List<String> before = room.ids("shift");
            room.second(minute("2026-03-29T05:00:00Z"));
            room.second(minute("2026-10-25T05:59:59Z"));
            List<String> summer = room.ids("shift");
            room.second(minute("2026-10-25T06:00:00Z"));

            assertThat(before).isEmpty();
            assertThat(summer).containsExactly("all-is-well/2026-03-29");
            assertThat(room.ids("shift")).hasSize(2).endsWith("all-is-well/2026-10-25");
            assertThat(room.due("shift").get(0).text()).contains("jet-1: 23 starts");
            assertThat(room.due("shift").get(1).text()).contains("jet-1: 25 starts");
        }
    }

    @Test
    void report_in_the_skipped_hour_comes_later_and_in_the_doubled_hour_once() {
        try (PolicyRoom room = new PolicyRoom(folder, shift("02:30"))) {
            room.second(minute("2026-03-29T01:29:59Z"));
            List<String> before = room.ids("shift");
            room.second(minute("2026-03-29T01:30:00Z"));
            room.second(minute("2026-10-25T00:30:00Z"));
            room.second(minute("2026-10-25T01:30:00Z"));

            assertThat(before).isEmpty();
            assertThat(room.ids("shift"))
                    .containsExactly("all-is-well/2026-03-29", "all-is-well/2026-10-25");
        }
    }

    @Test
    void report_has_a_line_for_each_machine_of_the_route() throws Exception {
        try (PolicyRoom room = new PolicyRoom(folder, shift("07:00"), shiftOf("jet-1"))) {
            room.second(minute("2026-01-06T06:00:00Z"));

            Message all = room.due("shift").get(0);
            Message one = room.due("one").get(0);
            assertThat(all.subject()).isEqualTo("1 alarm stands: Boatyard, 2026-01-06");
            assertThat(all.text())
                    .contains(
                            "- jet-1: 24 starts, 0 alarms stand, last reading"
                                    + " 2026-01-05 12:00:00 +01:00.",
                            "- jet-2: 24 starts, 1 alarm stands, last reading ");
            assertThat(one.subject()).isEqualTo("all is well: Boatyard, 2026-01-06");
            assertThat(one.text()).doesNotContain("jet-2");
            assertThat(new ObjectMapper().readTree(one.json()).path("event").textValue())
                    .isEqualTo("all-is-well");
        }
    }

    private static RouteSettings shift(String time) {
        return PolicyRoom.route("shift", at(time));
    }

    private static RouteSettings shiftOf(String machine) {
        return new RouteSettings.Log(
                "one",
                new RouteScope(
                        Grade.ADVISORY, List.of(machine), Duration.ofHours(72), at("07:00")));
    }

    private static RoutePolicy at(String time) {
        return new RoutePolicy(
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                OptionalInt.empty(),
                Optional.of(LocalTime.parse(time)));
    }
}
