package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import leat.Gear;
import leat.interop.FieldDevice;
import leat.interop.Mosquitto;
import leat.interop.Sensor;
import leat.mqtt.Cable;
import leat.signal.Channel;
import leat.store.StoreReader;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * What a maintenance crew gets when something that machines hang on is away: pymodbus is the field
 * device, mosquitto the broker, mosquitto_pub the sensor, a shell script the crew's telephone.
 */
@Tag(Gear.THOROUGH)
@Timeout(200)
class ForeignOutagesTest {

    private static final Duration SOON = Duration.ofSeconds(40);
    private static final List<String> BEHIND_THE_SWITCH =
            List.of("jet-1", "jet-2", "jet-3", "jet-4");

    @TempDir Path folder;

    private FieldDevice device;
    private Mosquitto broker;
    private final List<Cable> hall = new ArrayList<>();
    private Cable cabinet;
    private Cable air;
    private Sensor sensor;
    private volatile double sensorInletPsi = 40;
    private LeatProcess leat;
    private Ledger ledger;

    @BeforeAll
    static void require_the_peers() {
        FieldDevice.require();
    }

    @BeforeEach
    void start_everything() throws Exception {
        device = FieldDevice.start(0);
        device.showFloats(0, 40, 102);
        device.showContact(0, true);
        broker = new Mosquitto(folder);
        broker.start();
        for (int i = 0; i < BEHIND_THE_SWITCH.size(); i++) {
            hall.add(new Cable(device.port()));
        }
        cabinet = new Cable(device.port());
        air = new Cable(broker.port());
        sensor =
                broker.startSensor(
                        "boatyard/jet-7/feed",
                        () ->
                                String.format(
                                        Locale.ROOT, "{\"in\":%.1f,\"out\":102}", sensorInletPsi));
        ledger = new Ledger(folder.resolve("data/leat.db"));
        Files.writeString(folder.resolve("site.yaml"), site());
        leat = LeatProcess.watching(folder);
        for (int n = 1; n <= 7; n++) {
            awaitReadings("jet-" + n);
        }
    }

    @AfterEach
    void end_everything() throws Exception {
        leat.close();
        sensor.close();
        for (Cable cable : hall) {
            cable.close();
        }
        cabinet.close();
        air.close();
        broker.close();
        device.close();
    }

    @Test
    void each_outage_is_one_call_and_one_return_and_a_pressure_comes_before_it() throws Exception {
        outage(
                "server away, two machines",
                List.of(cabinet),
                "WARNING jet-5, jet-6: nothing comes from cabinet",
                "read again jet-5, jet-6");
        outage(
                "broker away",
                List.of(air),
                "WARNING jet-7: nothing comes from air",
                "read again jet-7");
        outage(
                "both away",
                List.of(cabinet, air),
                "WARNING jet-5, jet-6, jet-7: nothing comes from cabinet, air",
                "read again jet-5, jet-6, jet-7");

        int before = told().size();
        for (Cable cable : hall) {
            cable.unplug();
        }
        sensorInletPsi = 12;
        await().atMost(SOON).until(() -> told().size() >= before + 2);
        for (Cable cable : hall) {
            cable.plugIn();
        }
        await().atMost(SOON).until(() -> told().size() >= before + 3);

        List<String> switchAway = told().subList(before, told().size());
        assertThat(switchAway.get(0)).startsWith("WARNING jet-7: inlet pressure low");
        assertThat(switchAway.subList(1, 3))
                .containsExactly(
                        "WARNING jet-1, jet-2, jet-3, jet-4: nothing comes from hall-1, hall-2,"
                                + " hall-3, hall-4",
                        "read again jet-1, jet-2, jet-3, jet-4");
        assertThat(switchAway).hasSize(3);
        print("switch away, four machines", 2, BEHIND_THE_SWITCH);
    }

    private void outage(String what, List<Cable> cables, String call, String back)
            throws Exception {
        int before = told().size();
        for (Cable cable : cables) {
            cable.unplug();
        }
        await().atMost(SOON).until(() -> told().size() > before);
        for (Cable cable : cables) {
            cable.plugIn();
        }
        await().atMost(SOON).until(() -> told().size() > before + 1);
        assertThat(told().subList(before, told().size())).as(what).containsExactly(call, back);
        print(what, 2, List.of("jet-5", "jet-6", "jet-7"));
    }

    /** How many messages there were, and how many changes of alarms there have been so far. */
    private void print(String what, int messages, List<String> machines) {
        long changes =
                machines.stream()
                        .flatMap(machine -> ledger.events(machine).stream())
                        .filter(event -> event.alarmId().contains(".signal-missing."))
                        .count();
        System.out.printf(
                Locale.ROOT,
                "%s: %d messages; changes of alarms of silent channels so far: %d%n",
                what,
                messages,
                changes);
    }

    /** Subjects of what the crew got, in its order. */
    private List<String> told() {
        Path phone = folder.resolve("phone");
        try {
            return Files.exists(phone) ? Files.readAllLines(phone) : List.of();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void awaitReadings(String machine) {
        await().atMost(SOON)
                .until(
                        () -> {
                            try (StoreReader reader = ledger.reader()) {
                                return Tape.of(reader, machine).readings(Channel.INLET).size() > 5;
                            }
                        });
    }

    private String site() {
        StringBuilder connections = new StringBuilder();
        StringBuilder machines = new StringBuilder();
        IntStream.rangeClosed(1, 4)
                .forEach(
                        n -> {
                            connections.append(modbus("hall-" + n, hall.get(n - 1).port()));
                            machines.append(machine("jet-" + n, "hall-" + n));
                        });
        connections.append(modbus("cabinet", cabinet.port()));
        machines.append(machine("jet-5", "cabinet")).append(machine("jet-6", "cabinet"));
        return """
                site: { name: Boatyard }
                store: { folder: ./data }
                connections:
                %s  air: { mqtt: { url: "%s", client_id: leat, reconnect_max: 1 s } }
                machines:
                %s  jet-7:
                    channels:
                      inlet:
                        from: air
                        topic: { name: boatyard/jet-7/feed, value: /in, silent_after: 1500 ms }
                        unit: psi
                      boosted:
                        from: air
                        topic: { name: boatyard/jet-7/feed, value: /out, silent_after: 1500 ms }
                        unit: psi
                %stell:
                  crew:
                    by: { command: { run: [ /bin/sh, -c, 'echo "$LEAT_SUBJECT" >> %s' ] } }
                    about: { from: WARNING }
                """
                .formatted(
                        connections,
                        air.url(),
                        machines,
                        QuickSite.LIMITS,
                        folder.resolve("phone"));
    }

    private static String modbus(String name, int port) {
        return """
                %s:
                  modbus_tcp: { host: 127.0.0.1, port: %d, timeout: 300 ms, reconnect_max: 1 s }
                """
                .formatted(name, port)
                .indent(2);
    }

    private static String machine(String name, String connection) {
        return """
                %1$s:
                  channels:
                    inlet:
                      from: %2$s
                      register: { table: input_register, address: 0, type: float32 }
                      unit: psi
                    boosted:
                      from: %2$s
                      register: { table: input_register, address: 2, type: float32 }
                      unit: psi
                    running:
                      from: %2$s
                      register: { table: discrete_input, address: 0 }
                """
                .formatted(name, connection)
                .indent(2);
    }
}
