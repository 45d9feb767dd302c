package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import leat.Gear;
import leat.interop.Mosquitto;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whoever watches the status topic notices that leat is gone, though nobody asked for the topic in
 * {@code site.yaml}: mosquitto says it in leat's place.
 */
@Timeout(120)
class StatusTopicTest {

    private static final Duration KEEP_ALIVE = Duration.ofSeconds(2);

    /**
     * MQTT 3.1.1, 3.1.2.10: a broker waits for one and a half times the keep alive. This one takes
     * some seconds more to look.
     */
    private static final Duration HANGED = Duration.ofSeconds(20);

    private static final Duration SOON = Duration.ofSeconds(20);
    private static final String STATUS = "leat/boatyard/status";
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir Path folder;

    private Cabinet cabinet;
    private Mosquitto broker;
    private Mosquitto.Heard heard;

    @BeforeEach
    void start_device_and_broker() throws IOException {
        cabinet = new Cabinet();
        broker = new Mosquitto(folder);
        broker.start();
        heard = broker.listen(STATUS);
        Files.writeString(folder.resolve("site.yaml"), site());
    }

    @AfterEach
    void close_both() {
        broker.close();
        cabinet.close();
    }

    @Tag(Gear.THOROUGH)
    @Test
    void killed_it_is_offline_within_the_keep_alive_and_started_again_online() throws Exception {
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            awaitSaid("online");

            leat.kill();
            long killed = System.nanoTime();
            await().atMost(KEEP_ALIVE)
                    .pollInterval(Duration.ofMillis(10))
                    .until(() -> lastWord().equals("offline"));

            System.out.printf(
                    "kill -9 to offline: %d ms%n",
                    TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - killed));
        }
        JsonNode offline = JSON.readTree(retained());
        assertThat(offline.path("schema").asText()).isEqualTo("leat.status/1");
        assertThat(offline.path("status").asText()).isEqualTo("offline");
        assertThat(offline.path("site").asText()).isEqualTo("Boatyard");
        assertThat(offline.path("client_id").asText()).isEqualTo("leat-boatyard");
        assertThat(offline.path("reason").asText()).isEqualTo("connection lost");

        try (LeatProcess again = LeatProcess.watching(folder)) {
            awaitSaid("online");
            assertThat(JSON.readTree(retained()).path("status").asText()).isEqualTo("online");
            again.terminate();
        }
        assertThat(JSON.readTree(retained()).path("reason").asText()).isEqualTo("closed");
    }

    @Tag(Gear.THOROUGH)
    @Test
    void hanging_it_is_offline_soon_after_the_keep_alive_and_online_when_it_goes_on()
            throws Exception {
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            awaitSaid("online");

            signal("STOP", leat);
            long stopped = System.nanoTime();
            await().atMost(HANGED).until(() -> lastWord().equals("offline"));
            System.out.printf(
                    "SIGSTOP to offline, keep alive 2 s: %d ms%n",
                    TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - stopped));
            signal("CONT", leat);

            awaitSaid("online");
        }
    }

    private static void signal(String name, LeatProcess leat) throws Exception {
        Process kill = new ProcessBuilder("kill", "-" + name, Long.toString(leat.pid())).start();
        assertThat(kill.waitFor()).isZero();
    }

    private void awaitSaid(String word) {
        await().atMost(SOON).until(() -> lastWord().equals(word));
    }

    /** The status of the last message that was heard; empty for none. */
    private String lastWord() throws IOException {
        List<String> lines = heard.lines();
        return lines.isEmpty() ? "" : status(lines.get(lines.size() - 1));
    }

    private static String status(String line) throws IOException {
        return JSON.readTree(line.split(" ", 3)[2]).path("status").asText();
    }

    /** What the broker shows to whoever comes later. */
    private String retained() throws Exception {
        Mosquitto.Heard later = broker.listen(STATUS);
        await().atMost(SOON).until(() -> later.lines().size() == 1);
        broker.killListener(later);
        assertThat(later.lines().get(0)).startsWith("1 ");
        return later.lines().get(0).split(" ", 3)[2];
    }

    private String site() {
        return """
                site: { name: Boatyard }
                store: { folder: ./data }
                connections:
                  cabinet: { modbus_tcp: { host: 127.0.0.1, port: %d } }
                  hall:
                    mqtt: { url: "%s", client_id: leat-boatyard, keep_alive: %d s }
                machines:
                  jet-1:
                    channels:
                      inlet:
                        from: cabinet
                        register: { table: input_register, address: 10, type: float32 }
                        unit: psi
                      boosted:
                        from: cabinet
                        register: { table: input_register, address: 12, type: float32 }
                        unit: psi
                tell:
                  hall: { by: { mqtt: { connection: hall, topic_prefix: leat/boatyard } } }
                """
                .formatted(cabinet.port(), broker.url(), KEEP_ALIVE.toSeconds());
    }
}
