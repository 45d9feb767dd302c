package leat.service;

import static leat.alarm.AlarmState.UNACKNOWLEDGED;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
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

/** A flood is more than 10 in 10 minutes (ISA-18.2 / IEC 62682, at second hand). */
class FloodTest {

    private static final String MORE = "jet-1/more/20260105T110000Z";

    @TempDir Path folder;

    private PolicyRoom room;

    @BeforeEach
    void open() {
        room =
                new PolicyRoom(
                        folder,
                        PolicyRoom.route(
                                "shift",
                                new RoutePolicy(
                                        Optional.empty(),
                                        Optional.empty(),
                                        Optional.empty(),
                                        OptionalInt.of(10),
                                        Optional.empty())),
                        PolicyRoom.route("all", RoutePolicy.AT_ONCE));
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void ten_in_ten_minutes_are_told_one_by_one() {
        worsen(1, 10);

        room.second(10);

        assertThat(room.ids("shift")).hasSize(10).doesNotContain(MORE);
    }

    @Test
    void what_is_more_is_told_in_one_message_when_the_ten_minutes_are_over() {
        worsen(1, 13);
        room.second(9.9);
        List<String> before = room.ids("shift");

        room.second(10);
        room.second(10.1);

        Message more = room.due("shift").get(10);
        assertThat(before).hasSize(10);
        assertThat(room.ids("shift")).hasSize(11);
        assertThat(more.id()).isEqualTo(MORE);
        assertThat(more.subject()).isEqualTo("WARNING jet-1: weak boost and 2 more messages");
        assertThat(more.text())
                .contains("\n- WARNING: weak boost, 1.62 times, since 12:03 (alarm 1)\n");
        assertThat(more.grade()).isEqualTo(Grade.WARNING);
        assertThat(more.json()).contains("\"jet-1.ratio.x/11\"", "\"jet-1.ratio.x/13\"");
        assertThat(room.ids("all")).hasSize(13);
    }

    @Test
    void critical_is_never_folded() {
        worsen(1, 12);
        room.change(13, AlarmEvent.WORSENED, UNACKNOWLEDGED, Grade.CRITICAL, 6);

        room.second(10);

        assertThat(room.ids("shift")).hasSize(12).contains("jet-1.ratio.x/13", MORE);
        assertThat(room.due("shift").get(11).subject())
                .isEqualTo("WARNING jet-1: weak boost and 1 more message");
    }

    @Test
    void news_takes_no_place_and_pressures_come_before_signals() {
        for (int n = 1; n <= 5; n++) {
            signal(2 * n - 1, AlarmEvent.WORSENED, Grade.WARNING);
            signal(2 * n, AlarmEvent.EASED, Grade.ADVISORY);
        }
        worsen(1, 2);
        signal(11, AlarmEvent.WORSENED, Grade.WARNING);

        room.change(
                "jet-1", Rule.LEVEL_LOW, 1, AlarmEvent.RAISED, UNACKNOWLEDGED, Grade.WARNING, 4);
        room.second(10);

        assertThat(room.ids("shift"))
                .hasSize(5 + 5 + 2 + 1 + 1)
                .contains("jet-1.level-low.x/1", MORE)
                .doesNotContain("jet-1.signal-bad.x/11");
    }

    private void signal(int revision, AlarmEvent event, Grade grade) {
        room.change("jet-1", Rule.SIGNAL_BAD, revision, event, UNACKNOWLEDGED, grade, 1);
    }

    @Test
    void flood_of_one_machine_holds_back_nothing_of_the_other() {
        worsen(1, 12);

        room.change("jet-2", Rule.RISE, 1, AlarmEvent.RAISED, UNACKNOWLEDGED, Grade.ADVISORY, 7);

        assertThat(room.ids("shift")).contains("jet-2.rise.x/1");
    }

    @Test
    void next_ten_minutes_begin_anew() {
        worsen(1, 12);
        room.second(10);

        room.change(13, AlarmEvent.WORSENED, UNACKNOWLEDGED, Grade.WARNING, 10.5);

        assertThat(room.ids("shift")).endsWith(MORE, "jet-1.ratio.x/13");
    }

    @Test
    void restart_in_a_flood_forgets_neither_the_count_nor_what_was_folded() {
        worsen(1, 12);
        room.restart();
        worsen(13, 14);
        room.restart();
        room.second(31);
        room.restart();
        room.second(32);

        assertThat(room.ids("shift")).hasSize(11).endsWith(MORE);
        assertThat(room.due("shift").get(10).subject())
                .isEqualTo("WARNING jet-1: weak boost and 3 more messages");
    }

    @Test
    void clock_that_is_set_back_into_a_flood_that_was_told_loses_nothing() {
        worsen(1, 12);
        room.second(10);
        room.restart();
        worsen(13, 24);

        room.second(10);

        assertThat(room.ids("shift")).contains(MORE).endsWith(MORE + "/2");
    }

    private void worsen(int from, int to) {
        IntStream.rangeClosed(from, to)
                .forEach(
                        n ->
                                room.change(
                                        n,
                                        AlarmEvent.WORSENED,
                                        UNACKNOWLEDGED,
                                        Grade.WARNING,
                                        n / 3.0));
    }
}
