package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import leat.Gear;
import leat.deliver.SchemaCheck;
import leat.interop.FieldDevice;
import leat.interop.Mosquitto;
import leat.interop.Sensor;
import leat.mqtt.Cable;
import leat.rule.Grade;
import leat.signal.Channel;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.store.StoreReader;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The whole daemon among programs that we did not write: pymodbus is the field device of jet-1,
 * mosquitto_pub the sensor of jet-2, mosquitto the broker, mosquitto_sub the maintenance crew's
 * receiver. Each of them is killed and started again.
 */
@Timeout(120)
class ForeignPeersTest {

    private static final Path SCHEMA = Path.of("config/alarm-message.schema.json");
    private static final Duration SOON = Duration.ofSeconds(25);
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final String EVENTS = "leat/boatyard/event";

    /** Longer than the second that leat gives a device, shorter than the silence of a sensor. */
    private static final Duration LONGEST_UNSAID_GAP = Duration.ofMillis(1_900);

    @TempDir Path folder;

    private FieldDevice device;
    private Mosquitto broker;
    private Cable cable;
    private Sensor sensor;
    private volatile double sensorInletPsi = 40;
    private Mosquitto.Heard events;
    private LeatProcess leat;
    private Ledger ledger;

    @BeforeAll
    static void require_the_peers() {
        FieldDevice.require();
    }

    @BeforeEach
    void start_everything() throws Exception {
        device = startDevice(0);
        broker = new Mosquitto(folder);
        broker.start();
        cable = new Cable(broker.port());
        sensor = startSensor();
        events = broker.listen(EVENTS);
        ledger = new Ledger(folder.resolve("data/leat.db"));
        Files.writeString(folder.resolve("site.yaml"), site(device.port(), cable.url()));
        leat = LeatProcess.watching(folder);
        awaitReadings("jet-1");
        awaitReadings("jet-2");
    }

    @AfterEach
    void end_everything() throws Exception {
        leat.close();
        sensor.close();
        cable.close();
        broker.close();
        device.close();
    }

    @Tag(Gear.THOROUGH)
    @Test
    void an_alarm_is_a_state_that_stays_and_an_event_and_a_killed_receiver_finds_it_again()
            throws Exception {
        device.showFloats(0, 12);
        sensorInletPsi = 12;
        JsonNode first = awaitEvent(events, "jet-1", "inlet", "raised");
        awaitEvent(events, "jet-2", "inlet", "raised");

        broker.killListener(events);
        device.showFloats(0, 40);
        await().atMost(SOON).until(() -> told("jet-1", "returned") == 1);
        await().atMost(SOON).until(() -> ledger.due("hall") == 0);
        Mosquitto.Heard again = broker.listen(EVENTS);
        Mosquitto.Heard states = broker.listen("leat/boatyard/+/alarm/#");
        await().atMost(SOON).until(() -> states.lines().size() == 2);

        JsonNode state = json(states.lines("leat/boatyard/jet-1/alarm/inlet").get(0));
        assertThat(states.lines()).allMatch(line -> line.startsWith("1 "));
        assertThat(state.path("alarm")).isEqualTo(first.path("alarm"));
        assertThat(state.path("state").asText()).isEqualTo("returned-unacknowledged");
        device.showFloats(0, 3);
        JsonNode next = awaitEvent(again, "jet-1", "inlet", "raised");
        assertThat(next.path("grade").asText()).isEqualTo("critical");
        assertThat(next.path("alarm"))
                .as("nobody acknowledged: one thing to look at")
                .isEqualTo(first.path("alarm"));
        assertThat(next.path("revision").asInt()).isGreaterThan(state.path("revision").asInt());
        assertFitsSchema(events);
        assertFitsSchema(again);
        assertFitsSchema(states);
        assertSound();
    }

    @Test
    void a_killed_field_device_leaves_a_gap_and_warnings_that_go_when_it_is_back()
            throws Exception {
        long killed = nowMicros();
        device.kill();
        Set<String> channels = Set.of("inlet", "boosted", "running");
        await().atMost(SOON).until(() -> missing("jet-1", "raised").equals(channels));

        long restarted = nowMicros();
        device = startDevice(device.port());

        await().atMost(SOON).until(() -> missing("jet-1", "returned").equals(channels));
        awaitReadings("jet-1");
        leat.terminate();
        try (StoreReader reader = ledger.reader()) {
            Tape tape = Tape.of(reader, "jet-1");
            for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING)) {
                assertOneGap(tape, channel, killed, restarted);
            }
            Tape.of(reader, "jet-2").assertNoUnsaidGap(Channel.INLET, LONGEST_UNSAID_GAP);
            assertThat(Tape.of(reader, "jet-2").losses(Channel.INLET)).isEmpty();
        }
        assertFitsSchema(events);
        assertSound();
    }

    @Tag(Gear.THOROUGH)
    @Test
    void a_killed_sensor_leaves_a_gap_and_warnings_that_go_when_it_is_back() throws Exception {
        long killed = nowMicros();
        sensor.kill();
        Set<String> channels = Set.of("inlet", "boosted");
        await().atMost(SOON).until(() -> missing("jet-2", "raised").equals(channels));

        long restarted = nowMicros();
        sensor = startSensor();

        await().atMost(SOON).until(() -> missing("jet-2", "returned").equals(channels));
        awaitReadings("jet-2");
        leat.terminate();
        try (StoreReader reader = ledger.reader()) {
            Tape tape = Tape.of(reader, "jet-2");
            assertOneGap(tape, Channel.INLET, killed, restarted);
            assertOneGap(tape, Channel.BOOSTED, killed, restarted);
            assertThat(tape.losses(Channel.INLET).get(0).reason()).contains("no message for 1.");
            assertThat(Tape.of(reader, "jet-1").losses(Channel.INLET)).isEmpty();
        }
        assertFitsSchema(events);
        assertSound();
    }

    @Tag(Gear.THOROUGH)
    @Test
    void what_is_raised_while_the_broker_is_away_arrives_in_order_when_it_is_back()
            throws Exception {
        await().atMost(SOON).until(() -> ledger.due("hall") == 0);
        int toldBefore = ledger.owed("hall").size();
        long killed = nowMicros();
        broker.kill();
        sensor.kill();
        device.showFloats(0, 12);
        await().atMost(SOON).until(() -> told("jet-1", "raised") == 1);
        device.showFloats(0, 3);
        await().atMost(SOON).until(() -> isCritical("jet-1"));
        device.showFloats(0, 40);
        await().atMost(SOON).until(() -> told("jet-1", "returned") == 1);
        await().atMost(SOON).until(() -> missing("jet-2", "raised").size() == 2);

        // The receiver is there before leat is: what leat says first would pass it by
        cable.setDead(true);
        broker.start();
        events = broker.listen(EVENTS);
        awaitSubscribed(events);
        long restarted = nowMicros();
        cable.setDead(false);
        cable.cut();
        sensor = startSensor();

        await().atMost(SOON).until(() -> missing("jet-2", "returned").size() == 2);
        await().atMost(SOON).until(() -> ledger.due("hall") == 0);
        awaitReadings("jet-2");
        leat.terminate();
        List<String> owed =
                ledger.owed("hall").stream().skip(toldBefore).map(Ledger.Owed::id).toList();
        await().atMost(SOON).until(() -> ids(events).equals(owed));
        assertThat(owed).hasSizeGreaterThanOrEqualTo(7);
        try (StoreReader reader = ledger.reader()) {
            Tape tape = Tape.of(reader, "jet-2");
            assertOneGap(tape, Channel.INLET, killed, restarted);
            assertOneGap(tape, Channel.BOOSTED, killed, restarted);
            assertThat(tape.losses(Channel.INLET).get(0).reason()).contains("no connection");
            assertThat(Tape.of(reader, "jet-1").losses(Channel.INLET)).isEmpty();
        }
        assertSound();
    }

    /** Lost once, back once, and not one reading in between or while nothing could be read. */
    private static void assertOneGap(Tape tape, Channel channel, long killed, long restarted) {
        List<SourceLost> losses = tape.losses(channel);
        List<SourceBack> returns = tape.returns(channel);
        String what = tape.machine() + " " + channel;
        assertThat(losses).as(what).hasSize(1);
        assertThat(returns).as(what).hasSize(1);
        long lost = losses.get(0).atMicros();
        long back = returns.get(0).atMicros();
        assertThat(lost).as(what).isBetween(killed, restarted);
        assertThat(back).as(what).isGreaterThan(restarted);
        assertThat(tape.readings(channel, lost, back)).as(what).isEmpty();
        // What was under way when the plug was pulled may still have come in
        assertThat(tape.readings(channel, killed + 300_000, restarted)).as(what).isEmpty();
        assertThat(tape.readings(channel, back, Long.MAX_VALUE)).as(what).isNotEmpty();
        tape.assertNoUnsaidGap(channel, LONGEST_UNSAID_GAP);
    }

    /** Parity, and a database without a fault. */
    private void assertSound() throws InterruptedException {
        if (leat.isAlive()) {
            leat.terminate();
        }
        assertThat(leat.log()).doesNotContain("Exception", "a step failed");
        assertThat(ledger.integrity()).containsExactly("ok");
        assertThat(Parity.assertHolds(folder.resolve("data/leat.db"))).isPositive();
    }

    private static void assertFitsSchema(Mosquitto.Heard heard) throws IOException {
        JsonNode schema = JSON.readTree(SCHEMA.toFile());
        assertThat(heard.lines()).isNotEmpty();
        for (String line : heard.lines()) {
            assertThat(SchemaCheck.problems(schema, json(line))).as(line).isEmpty();
        }
    }

    private long told(String machine, String event) {
        return ledger.events(machine).stream().filter(e -> e.event().equals(event)).count();
    }

    private boolean isCritical(String machine) {
        return ledger.events(machine).stream().anyMatch(e -> e.grade() == Grade.CRITICAL);
    }

    /** Channels of which such an event came because they were silent. */
    private Set<String> missing(String machine, String event) {
        String alarm = machine + ".signal-missing.";
        return ledger.events(machine).stream()
                .filter(e -> e.alarmId().startsWith(alarm) && e.event().equals(event))
                .map(e -> e.alarmId().substring(alarm.length()).replaceFirst("\\..*", ""))
                .collect(Collectors.toSet());
    }

    private static JsonNode awaitEvent(
            Mosquitto.Heard heard, String machine, String rule, String event) {
        await().atMost(SOON).until(() -> !events(heard, machine, rule, event).isEmpty());
        return events(heard, machine, rule, event).get(0);
    }

    private static List<JsonNode> events(
            Mosquitto.Heard heard, String machine, String rule, String event) {
        return heard.lines().stream()
                .map(ForeignPeersTest::json)
                .filter(json -> json.path("machine").asText().equals(machine))
                .filter(json -> json.path("rule").asText().equals(rule))
                .filter(json -> json.path("event").asText().equals(event))
                .toList();
    }

    private static List<String> ids(Mosquitto.Heard heard) {
        return heard.lines().stream()
                .map(json -> json(json).path("id").asText())
                .filter(id -> !id.isEmpty())
                .distinct()
                .toList();
    }

    private static JsonNode json(String line) {
        try {
            return JSON.readTree(line.split(" ", 3)[2]);
        } catch (IOException e) {
            throw new UncheckedIOException(line, e);
        }
    }

    private void awaitSubscribed(Mosquitto.Heard heard) {
        await().atMost(SOON)
                .pollInterval(Duration.ofMillis(50))
                .until(
                        () -> {
                            broker.publish(EVENTS, "{}");
                            return !heard.lines().isEmpty();
                        });
    }

    /** Waits until half a second of readings more is committed. */
    private void awaitReadings(String machine) {
        int before = inletReadings(machine);
        await().atMost(SOON).until(() -> inletReadings(machine) >= before + 5);
    }

    private int inletReadings(String machine) {
        try (StoreReader reader = ledger.reader()) {
            return Tape.of(reader, machine).readings(Channel.INLET).size();
        }
    }

    private static FieldDevice startDevice(int port) throws IOException {
        FieldDevice device = FieldDevice.start(port);
        device.showFloats(0, 40, 102);
        device.showContact(0, true);
        return device;
    }

    private Sensor startSensor() throws IOException {
        return broker.startSensor(
                "boatyard/jet-2/feed",
                () -> String.format(Locale.ROOT, "{\"in\":%.1f,\"out\":102}", sensorInletPsi));
    }

    private static long nowMicros() {
        return ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
    }

    private static String site(int port, String brokerUrl) {
        return """
                site: { name: Boatyard }
                store: { folder: ./data }
                connections:
                  cabinet:
                    modbus_tcp: { host: 127.0.0.1, port: %d, timeout: 300 ms, reconnect_max: 1 s }
                  hall: { mqtt: { url: "%s", client_id: leat, reconnect_max: 1 s } }
                machines:
                  jet-1:
                    channels:
                      inlet:
                        from: cabinet
                        register: { table: input_register, address: 0, type: float32 }
                        unit: psi
                      boosted:
                        from: cabinet
                        register: { table: input_register, address: 2, type: float32 }
                        unit: psi
                      running:
                        from: cabinet
                        register: { table: discrete_input, address: 0 }
                  jet-2:
                    channels:
                      inlet:
                        from: hall
                        topic: { name: boatyard/jet-2/feed, value: /in, silent_after: 1500 ms }
                        unit: psi
                      boosted:
                        from: hall
                        topic: { name: boatyard/jet-2/feed, value: /out, silent_after: 1500 ms }
                        unit: psi
                %stell:
                  hall: { by: { mqtt: { connection: hall, topic_prefix: leat/boatyard } } }
                """
                .formatted(port, brokerUrl, QuickSite.LIMITS);
    }
}
