package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import leat.config.ConnectionSettings;
import leat.interop.Mosquitto;
import leat.mqtt.MqttLink;
import leat.tls.Trust;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A test message beside the session of a leat that runs, at Debian's broker. */
class TellByMqttInteropTest {

    @TempDir Path folder;

    private Mosquitto broker;
    private Path site;

    @BeforeEach
    void start() throws IOException {
        broker = new Mosquitto(folder);
        site =
                Files.writeString(
                        folder.resolve("site.yaml"),
                        """
                        site: { name: Boatyard }
                        connections:
                          broker: { mqtt: { url: "%s", client_id: leat-boatyard } }
                        machines:
                          jet-1:
                            channels:
                              boosted: { from: broker, topic: { name: yard/jet-1 }, unit: psi }
                        tell:
                          hall: { by: { mqtt: { connection: broker, topic_prefix: leat/boatyard } } }
                        """
                                .formatted(broker.url()));
    }

    @AfterEach
    void end() throws Exception {
        broker.close();
    }

    private MqttLink daemon() {
        return new MqttLink(
                new ConnectionSettings.Mqtt(
                        "broker",
                        broker.url(),
                        "leat-boatyard",
                        Optional.empty(),
                        Optional.empty(),
                        Trust.OF_THE_RUNTIME,
                        Optional.of("leat/boatyard/status"),
                        Duration.ofSeconds(15),
                        Duration.ofSeconds(1)),
                "Boatyard");
    }

    private Ran tell() {
        return Ran.leat("tell", "hall", "--test", "--site", site.toString());
    }

    @Test
    void neither_ends_the_session_of_a_leat_that_runs_nor_leaves_anything_at_the_broker()
            throws Exception {
        broker.start();
        Mosquitto.Heard before = broker.listen("leat/boatyard/#");
        try (MqttLink daemon = daemon()) {
            daemon.start();
            await().until(() -> before.lines().size() == 1);

            Ran ran = tell();

            assertThat(ran.code()).isZero();
            assertThat(ran.out())
                    .containsSubsequence(
                            "hall: mqtt, connection broker",
                            "Connected to tcp://127.0.0.1:",
                            "as leat-boatyard-test-",
                            "Accepted after",
                            "it came back to leat");
            assertThat(daemon.health().connected()).isTrue();
            assertThat(daemon.health().connects()).isOne();
            assertThat(daemon.health().faults()).isZero();
            await().until(() -> before.lines().size() == 3);
            assertThat(before.lines().get(0)).contains("\"online\"");
            assertThat(before.lines().get(1))
                    .startsWith("0 leat/boatyard/notice {")
                    .contains("\"test\":true");
            assertThat(before.lines().get(2)).startsWith("0 leat/boatyard/event {");
            Mosquitto.Heard later = broker.listen("leat/boatyard/#");
            await().until(() -> !later.lines().isEmpty());
            assertThat(later.lines()).hasSize(1).allMatch(line -> line.contains("\"online\""));
        }
    }

    @Test
    void broker_that_drops_what_it_has_accepted_is_found_out() throws Exception {
        Path rights = Files.writeString(folder.resolve("rights"), "topic read other/#\n");
        broker.startWith("allow_anonymous true", "acl_file " + rights);

        Ran ran = tell();

        assertThat(ran.out())
                .contains(
                        "Accepted after",
                        "did not come back",
                        "access list",
                        "mosquitto_sub -t 'leat/boatyard/#'");
    }

    @Test
    void broker_that_is_away_is_the_reason_with_what_to_check() {
        Ran ran = tell();

        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.out()).contains("NOT connected: tcp://127.0.0.1:", "check");
    }
}
