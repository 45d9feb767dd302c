package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;
import leat.deliver.SchemaCheck;
import leat.service.SiteRun.Delivered;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.store.Message;
import leat.store.NoRoom;
import leat.store.Snapshot;
import leat.store.StoreReader;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk that takes nothing keeps nobody from being told; real store, engine and couriers. */
class ToldFromMemoryTest {

    private static final Instant BEGIN = Instant.parse("2026-01-05T23:59:00Z");
    private static final long SECOND = 1_000_000;

    private static final String SITE =
            """
            site: { name: Boatyard, time_zone: UTC }
            store: { folder: ./data }
            connections:
              cabinet: { modbus_tcp: { host: 127.0.0.1, port: 502 } }
            machines:
              jet-1:
                channels:
                  inlet:
                    { from: cabinet, register: { table: input_register, address: 10, type: float32 }, unit: psi }
                  boosted:
                    { from: cabinet, register: { table: input_register, address: 12, type: float32 }, unit: psi }
                  running: { from: cabinet, register: { table: discrete_input, address: 0 } }
            routes:
              log: { log: { at_least: ADVISORY } }
              siren: { command: { run: [ /bin/true ], at_least: CRITICAL } }
              night:
                command: { run: [ /bin/true ], at_least: ADVISORY, quiet_hours: "00:00-06:00" }
            """;

    @TempDir Path folder;

    private SiteRun run;

    @BeforeEach
    void open() throws IOException {
        run = new SiteRun(folder, SITE, BEGIN);
    }

    @AfterEach
    void close() {
        run.close();
    }

    /** Twenty times a second, as the cabinet shows it. */
    private void pass(int seconds, double inlet, double boosted, int running)
            throws InterruptedException {
        for (int second = 0; second < seconds; second++) {
            run.second(
                    20,
                    () -> {
                        long now = run.nowMicros();
                        run.intake().offer("jet-1", Reading.good(Channel.RUNNING, now, running));
                        run.intake().offer("jet-1", Reading.good(Channel.INLET, now, inlet));
                        run.intake().offer("jet-1", Reading.good(Channel.BOOSTED, now, boosted));
                    });
        }
    }

    private void fill() throws InterruptedException {
        NoRoom.in(run.store());
        while (run.trouble().isEmpty()) {
            pass(1, 40, 0, 0);
        }
    }

    private List<Message> told(String route) {
        return run.delivered(route).stream().map(Delivered::message).toList();
    }

    private List<String> events(String route) {
        return told(route).stream().map(Message::event).toList();
    }

    private List<Message> due(String route) {
        try (StoreReader reader = StoreReader.open(run.database())) {
            return reader.due(route, 0, 100).stream().map(due -> due.message()).toList();
        }
    }

    private int alarms() {
        try (StoreReader reader = StoreReader.open(run.database())) {
            return reader.alarms(100).size();
        }
    }

    private List<Input> inputs() {
        List<Input> inputs = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(run.database())) {
            reader.inputs("jet-1", 0, Long.MAX_VALUE, (seq, input) -> inputs.add(input));
        }
        return inputs;
    }

    @Test
    void critical_that_cannot_be_stored_is_told_within_its_second_with_a_mark_and_once()
            throws Exception {
        pass(5, 40, 0, 0);
        fill();

        pass(30, 40, 41, 1);
        List<Delivered> meanwhile = run.delivered("siren");
        NoRoom.noMore(run.store());
        pass(3, 40, 41, 1);
        run.killAndStartAgain();
        pass(3, 40, 41, 1);

        assertThat(meanwhile).extracting(each -> each.message().event()).containsExactly("raised");
        Message raised = meanwhile.get(0).message();
        assertThat(meanwhile.get(0).atMicros() - raised.atMicros()).isLessThan(SECOND);
        assertThat(raised.text())
                .endsWith(
                        "Message "
                                + raised.id()
                                + """
                                .
                                Not stored yet: leat cannot write its database now. Look at the disk of leat's computer.""");
        assertKeepsToItsSchema(raised);
        assertThat(told("siren")).extracting(Message::id).containsExactly(raised.id());
        assertThat(due("siren")).isEmpty();
        assertThat(alarms()).isEqualTo(1);
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
    void people_are_told_that_nothing_can_be_stored_and_when_it_is_over_each_once()
            throws InterruptedException {
        pass(5, 40, 0, 0);
        fill();

        pass(30, 40, 0, 0);
        List<String> meanwhile = events("log");
        NoRoom.noMore(run.store());
        pass(5, 40, 0, 0);

        assertThat(meanwhile).containsExactly("store-fails");
        assertThat(told("log").get(0).text())
                .contains("leat at Boatyard watches and tells, but cannot store anything.")
                .contains("Why: ", "the disk is full. Make room");
        assertThat(events("log")).containsExactly("store-fails", "store-works");
        assertThat(told("log").get(1).text()).contains("Readings lost of that time: 0.");
        assertThat(events("siren")).as("no CRITICAL").isEmpty();
        assertThat(due("log")).isEmpty();
    }

    @Test
    void in_quiet_hours_critical_is_told_from_memory_and_the_rest_waits_for_their_end()
            throws InterruptedException {
        pass(60, 40, 0, 0);
        fill();
        pass(30, 40, 41, 1);
        List<String> atNight = events("night");
        NoRoom.noMore(run.store());
        pass(3, 40, 41, 1);

        assertThat(atNight).containsExactly("raised");
        assertThat(events("night")).containsExactly("raised");
        assertThat(due("night"))
                .extracting(Message::event)
                .containsExactly("store-fails", "store-works");
    }

    @Test
    void readings_beyond_what_memory_holds_are_let_go_and_a_restart_does_not_go_across()
            throws InterruptedException {
        pass(5, 40, 0, 0);
        fill();

        run.pass(Map.of("jet-1", readings(Duration.ofMinutes(50))), Duration.ofMinutes(50));
        pass(30, 40, 41, 1);
        List<String> meanwhile = events("siren");
        NoRoom.noMore(run.store());
        pass(3, 40, 41, 1);
        List<Snapshot> live = run.snapshots();
        List<Snapshot> resumed = resumed();

        assertThat(meanwhile).containsExactly("raised");
        assertThat(told("log").get(told("log").size() - 1).text())
                .containsPattern("Readings lost of that time: 180,[0-9]{3}\\.");
        assertThat(inputs())
                .filteredOn(
                        each ->
                                each instanceof SourceLost lost
                                        && lost.reason().contains("not store"))
                .extracting(each -> ((SourceLost) each).channel())
                .containsExactlyInAnyOrder(Channel.RUNNING, Channel.INLET, Channel.BOOSTED);
        assertThat(inputs()).hasSizeLessThan(10_000);
        assertThat(resumed).isEqualTo(live);
    }

    private List<Snapshot> resumed() {
        try (StoreReader reader = StoreReader.open(run.database())) {
            return new Resume(reader, run.site(), text -> Optional.empty())
                    .machines().stream().map(each -> each.snapshot(0)).toList();
        }
    }

    private Queue<Input> readings(Duration time) {
        Queue<Input> inputs = new ArrayDeque<>();
        long to = run.nowMicros() + time.toSeconds() * SECOND;
        for (long at = run.nowMicros() + 50_000; at <= to; at += 50_000) {
            inputs.add(Reading.good(Channel.RUNNING, at, 0));
            inputs.add(Reading.good(Channel.INLET, at, 40));
            inputs.add(Reading.good(Channel.BOOSTED, at, 0));
        }
        return inputs;
    }
}
