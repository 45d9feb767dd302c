package leat.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import leat.Gear;
import leat.deliver.SchemaCheck;
import leat.rule.Grade;
import leat.service.SiteRun.Delivered;
import leat.signal.Channel;
import leat.signal.SourceLost;
import leat.store.Batch;
import leat.store.Message;
import leat.store.NoRoom;
import leat.store.Snapshot;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk that takes nothing keeps nobody from being told; real store, engine and couriers. */
class ToldFromMemoryTest {

    @TempDir Path folder;

    private JetRun jet;

    @BeforeEach
    void open() throws IOException {
        jet = new JetRun(folder);
    }

    @AfterEach
    void close() {
        jet.close();
    }

    @Test
    void critical_that_cannot_be_stored_is_told_within_its_second_with_a_mark_and_once()
            throws Exception {
        jet.pass(5, 40, 0, 0);
        jet.fill();

        jet.pass(30, 40, 41, 1);
        List<Delivered> meanwhile = jet.run.delivered("siren");
        NoRoom.noMore(jet.run.store());
        jet.pass(3, 40, 41, 1);
        jet.run.killAndStartAgain();
        jet.pass(3, 40, 41, 1);

        assertThat(meanwhile).extracting(each -> each.message().event()).containsExactly("raised");
        Message raised = meanwhile.get(0).message();
        assertThat(meanwhile.get(0).atMicros() - raised.atMicros()).isLessThan(JetRun.SECOND);
        assertThat(raised.text())
                .endsWith(
                        "Alarm 1, message "
                                + raised.id()
                                + """
                                .
                                Not stored yet: leat cannot write its database now. Look at the disk of leat's computer.""");
        assertKeepsToItsSchema(raised);
        assertThat(jet.told("siren")).extracting(Message::id).containsExactly(raised.id());
        assertThat(jet.due("siren")).isEmpty();
        assertThat(jet.alarms()).isEqualTo(1);
    }

    private static void assertKeepsToItsSchema(Message message) throws IOException {
        JsonNode json = new ObjectMapper().readTree(message.json());
        JsonNode schema =
                new ObjectMapper().readTree(Path.of("config/alarm-message.schema.json").toFile());
        assertThat(SchemaCheck.problems(schema, json)).isEmpty();
        assertThat(json.get("stored").booleanValue()).isFalse();
        assertThat(json.get("text").textValue()).isEqualTo(message.text());
    }

    @Test
    void a_fault_of_leats_own_in_a_commit_keeps_nobody_from_being_told_either() throws Exception {
        jet.pass(20, 40, 41, 1);
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + jet.run.database());
                Statement statement = other.createStatement()) {
            statement.execute(
                    "CREATE TRIGGER none BEFORE INSERT ON input BEGIN SELECT RAISE(ABORT, ''); END");
        }

        for (int second = 0; second < 20; second++) {
            assertThatThrownBy(() -> jet.pass(1, 40, 41, 1))
                    .isInstanceOf(IllegalStateException.class);
            jet.run.deliver();
        }

        assertThat(jet.events("siren")).containsExactly("raised");
        assertThat(jet.events("log")).containsOnlyOnce("store-fails");
        assertThat(jet.run.trouble()).contains("SQLITE_CONSTRAINT_TRIGGER");
        assertThat(jet.alarms()).isZero();
    }

    @Test
    void people_are_told_that_nothing_can_be_stored_and_when_it_is_over_each_once()
            throws InterruptedException {
        jet.pass(5, 40, 0, 0);
        jet.fill();

        jet.pass(30, 40, 0, 0);
        List<String> meanwhile = jet.events("log");
        NoRoom.noMore(jet.run.store());
        jet.pass(5, 40, 0, 0);

        assertThat(meanwhile).containsExactly("store-fails");
        assertThat(jet.told("log").get(0).text())
                .contains("leat at Boatyard watches and tells, but cannot store anything.")
                .contains("Why: ", "the disk is full. Make room");
        assertThat(jet.events("log")).containsExactly("store-fails", "store-works");
        assertThat(jet.told("log").get(1).text()).contains("Readings lost of that time: 0.");
        assertThat(jet.events("siren")).as("no CRITICAL").isEmpty();
        assertThat(jet.due("log")).isEmpty();
    }

    @Test
    void in_quiet_hours_critical_is_told_from_memory_and_the_rest_waits_for_their_end()
            throws InterruptedException {
        jet.pass(20, 40, 0, 0);
        jet.fill();
        jet.pass(30, 40, 41, 1);
        List<String> atNight = jet.events("night");
        NoRoom.noMore(jet.run.store());
        jet.pass(3, 40, 41, 1);

        assertThat(atNight).containsExactly("raised");
        assertThat(jet.events("night")).containsExactly("raised");
        assertThat(jet.due("night"))
                .extracting(Message::event)
                .containsExactly("store-fails", "store-works");
    }

    @Test
    void in_quiet_hours_critical_is_told_from_memory_however_much_is_stored_that_must_wait()
            throws InterruptedException {
        jet.pass(20, 40, 0, 0);
        Batch many = new Batch();
        IntStream.range(0, 2_001).forEach(number -> many.owes(warning(number)));
        jet.run.store().commit(many);
        jet.fill();

        jet.pass(30, 40, 41, 1);

        assertThat(jet.events("night")).containsExactly("raised");
    }

    private static Message warning(int number) {
        return new Message(
                "warning-" + number,
                "night",
                "jet-1",
                "alarm-" + number,
                Grade.WARNING,
                1,
                "topic",
                Message.Purpose.CALL,
                "raised",
                "",
                "",
                "{}",
                Optional.empty());
    }

    @Tag(Gear.THOROUGH)
    @Test
    void in_quiet_hours_what_is_stored_of_an_alarm_comes_before_what_is_not() throws Exception {
        jet.pass(20, 40, 0, 0);
        jet.pass(60, 40, 70, 1);
        List<Message> before = jet.told("night");
        jet.fill(70, 1);

        jet.pass(30, 40, 41, 1);

        assertThat(before).isEmpty();
        assertThat(jet.told("night"))
                .filteredOn(message -> message.alarmId().contains(".ratio."))
                .extracting(Message::event)
                .containsExactly("raised", "worsened");
        assertThat(jet.told("night"))
                .filteredOn(message -> message.alarmId().contains(".ratio."))
                .extracting(message -> message.json().contains("\"stored\":false"))
                .containsExactly(false, true);
        assertThat(jet.due("night")).as("what is not CRITICAL waits").isNotEmpty();
    }

    @Test
    void readings_beyond_what_memory_holds_are_let_go_and_a_restart_does_not_go_across()
            throws InterruptedException {
        jet.pass(5, 40, 0, 0);
        jet.fill();

        jet.run.pass(Map.of("jet-1", jet.atRest(Duration.ofMinutes(50))), Duration.ofMinutes(50));
        jet.pass(30, 40, 41, 1);
        List<String> meanwhile = jet.events("siren");
        NoRoom.noMore(jet.run.store());
        jet.pass(3, 40, 41, 1);
        List<Snapshot> live = jet.run.snapshots();
        List<Snapshot> resumed = jet.resumed();

        assertThat(meanwhile).containsExactly("raised");
        assertThat(jet.told("log").get(jet.told("log").size() - 1).text())
                .containsPattern("Readings lost of that time: 180,[0-9]{3}\\.");
        assertThat(jet.inputs())
                .filteredOn(
                        each ->
                                each instanceof SourceLost lost
                                        && lost.reason().contains("not store"))
                .extracting(each -> ((SourceLost) each).channel())
                .containsExactlyInAnyOrder(Channel.RUNNING, Channel.INLET, Channel.BOOSTED);
        assertThat(jet.inputs()).hasSizeLessThan(10_000);
        assertThat(resumed).isEqualTo(live);
    }
}
