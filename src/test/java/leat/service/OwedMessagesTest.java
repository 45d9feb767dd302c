package leat.service;

import static leat.alarm.AlarmEvent.ACKNOWLEDGED;
import static leat.alarm.AlarmEvent.EASED;
import static leat.alarm.AlarmEvent.RAISED;
import static leat.alarm.AlarmEvent.RETURNED;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmState;
import leat.config.MachineSettings;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.StoreSettings;
import leat.rule.Grade;
import leat.rule.Limits;
import leat.signal.PressureUnit;
import leat.store.Batch;
import leat.store.Message;
import leat.store.Owed;
import leat.store.Store;
import leat.store.StoreReader;
import leat.words.Language;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OwedMessagesTest {

    @TempDir Path folder;

    @Test
    void what_one_route_gives_up_is_owed_to_the_other_in_the_same_commit() {
        Path file = folder.resolve("leat.db");
        try (Store store = Store.open(file);
                StoreReader reader = StoreReader.open(file)) {
            OwedMessages messages = OwedMessages.takenUp(site(), reader, 1);
            Batch first = new Batch();
            first.owes(message());
            store.commit(first);
            Owed lost = reader.due("hall", 0, 10).get(0);

            Batch second = new Batch();
            second.givenUp(lost.number(), 8, "no such mailbox");
            messages.givenUp(List.of(lost.message()), "no such mailbox", 8, second);
            store.commit(second);

            assertThat(reader.due("hall", 0, 10)).isEmpty();
            Message notice = reader.due("yard", 0, 10).get(0).message();
            assertThat(notice.kind()).isEqualTo(Message.Purpose.NOTICE);
            assertThat(notice.id()).isEqualTo("jet-1.ratio.x/1/undelivered/hall");
            assertThat(notice.text()).contains("Why: no such mailbox", "back to normal jet-1");
        }
    }

    @Test
    void after_a_restart_who_was_told_of_the_last_time_still_hears_nothing_of_this_one() {
        RouteSettings warnings = new RouteSettings.Log("log", RouteScope.from(Grade.WARNING));
        try (PolicyRoom room = new PolicyRoom(folder, warnings)) {
            room.change(1, RAISED, AlarmState.UNACKNOWLEDGED, Grade.WARNING, 0);
            room.change(2, ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, Grade.WARNING, 1);
            room.change(3, RETURNED, AlarmState.NORMAL, Grade.WARNING, 2);
            room.change(4, RAISED, AlarmState.UNACKNOWLEDGED, Grade.ADVISORY, 3);

            room.restart();
            room.change(5, RETURNED, AlarmState.RETURNED_UNACKNOWLEDGED, Grade.ADVISORY, 4);

            assertThat(room.ids("log"))
                    .containsExactly("jet-1.ratio.x/1", "jet-1.ratio.x/2", "jet-1.ratio.x/3");
        }
    }

    @Test
    void after_a_restart_who_was_told_of_this_time_hears_how_it_goes_on() {
        RouteSettings warnings = new RouteSettings.Log("log", RouteScope.from(Grade.WARNING));
        try (PolicyRoom room = new PolicyRoom(folder, warnings)) {
            room.change(1, RAISED, AlarmState.UNACKNOWLEDGED, Grade.ADVISORY, 0);
            room.change(2, ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, Grade.ADVISORY, 1);
            room.change(3, RETURNED, AlarmState.NORMAL, Grade.ADVISORY, 2);
            room.change(4, RAISED, AlarmState.UNACKNOWLEDGED, Grade.WARNING, 3);
            room.change(5, EASED, AlarmState.UNACKNOWLEDGED, Grade.ADVISORY, 4);

            room.restart();
            room.change(6, RETURNED, AlarmState.RETURNED_UNACKNOWLEDGED, Grade.ADVISORY, 5);

            assertThat(room.ids("log"))
                    .containsExactly("jet-1.ratio.x/4", "jet-1.ratio.x/5", "jet-1.ratio.x/6");
        }
    }

    @Test
    void message_comes_out_of_the_outbox_as_it_went_in() {
        Path file = folder.resolve("leat.db");
        try (Store store = Store.open(file);
                StoreReader reader = StoreReader.open(file)) {
            Batch batch = new Batch();
            batch.owes(message());

            store.commit(batch);

            assertThat(reader.due("hall", 0, 10)).containsExactly(new Owed(1, 0, message()));
        }
    }

    private static Message message() {
        return new Message(
                "jet-1.ratio.x/1",
                "hall",
                "jet-1",
                "jet-1.ratio.x",
                Grade.WARNING,
                7,
                "jet-1/alarm/ratio",
                Message.Purpose.NEWS,
                "returned",
                "back to normal jet-1",
                "Back to normal.",
                "{}",
                Optional.empty());
    }

    private Site site() {
        return new Site(
                "Boatyard",
                ZoneId.of("UTC"),
                Language.ENGLISH,
                PressureUnit.PSI,
                new StoreSettings(folder, Duration.ofDays(30)),
                List.of(),
                List.of(new MachineSettings("jet-1", List.of(), Limits.DEFAULTS)),
                List.of(
                        new RouteSettings.Log("hall", RouteScope.from(Grade.ADVISORY)),
                        new RouteSettings.Log("yard", RouteScope.from(Grade.ADVISORY))),
                Optional.empty(),
                Optional.empty(),
                "a".repeat(64),
                "text");
    }
}
