package leat.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import leat.Gear;
import leat.config.ConnectionSettings;
import leat.interop.FreePort;
import leat.interop.Mosquitto;
import leat.tls.Trust;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Somebody listens at a broker for a while. */
@Timeout(60)
class OverhearingTest {

    private static final Duration A_WHILE = Duration.ofMillis(700);

    @TempDir Path folder;

    private static Heard heard(String url, String filter) throws InterruptedException {
        return overhearing(url, filter).listen(A_WHILE);
    }

    private static Overhearing overhearing(String url, String filter) {
        ConnectionSettings.Mqtt settings =
                new ConnectionSettings.Mqtt(
                        "broker",
                        url,
                        "leat",
                        Optional.empty(),
                        Optional.empty(),
                        Trust.OF_THE_RUNTIME,
                        Optional.of("yard/status"),
                        Duration.ofSeconds(15),
                        Duration.ofSeconds(1));
        return new Overhearing(settings, "leat-probe-test", filter);
    }

    @Test
    void what_is_kept_is_told_from_what_comes_and_nothing_is_said() throws Exception {
        try (Mosquitto broker = new Mosquitto(folder)) {
            broker.start();
            broker.publish("yard/kept", "1", "-r");
            broker.startSensor("yard/fresh", () -> "2");
            Mosquitto.Heard others = broker.listen("#");

            Heard heard = heard(broker.url(), "yard/#");

            assertThat(heard.fault()).isEmpty();
            assertThat(heard.topics())
                    .extracting(Heard.Topic::name)
                    .containsExactlyInAnyOrder("yard/kept", "yard/fresh");
            assertThat(heard.topics())
                    .filteredOn(Heard.Topic::isRetainedAlone)
                    .extracting(Heard.Topic::name)
                    .containsExactly("yard/kept");
            assertThat(others.lines()).noneMatch(line -> line.contains("status"));
        }
    }

    @Test
    @Tag(Gear.THOROUGH)
    void more_topics_than_are_kept_are_counted_and_a_long_payload_is_cut() throws Exception {
        try (Mosquitto broker = new Mosquitto(folder)) {
            broker.start();
            Path large = Files.writeString(folder.resolve("large"), "x".repeat(100_000));
            broker.publishFile("a/large", large, "-r");
            publishMany(broker);

            Heard heard = heard(broker.url(), "#");

            assertThat(heard.topics()).hasSize(200);
            assertThat(heard.passedOver()).isEqualTo(11);
            Heard.Message cut =
                    heard.topics().stream()
                            .filter(topic -> topic.name().equals("a/large"))
                            .findFirst()
                            .orElseThrow()
                            .messages()
                            .get(0);
            assertThat(cut.isWhole()).isFalse();
            assertThat(cut.bytes()).hasSize(16 * 1024);
            assertThat(cut.length()).isEqualTo(100_000);
        }
    }

    private static void publishMany(Mosquitto broker) {
        MqttLink link =
                new MqttLink(
                        new ConnectionSettings.Mqtt(
                                "broker",
                                broker.url(),
                                "many",
                                Optional.empty(),
                                Optional.empty(),
                                Trust.OF_THE_RUNTIME,
                                Optional.empty(),
                                Duration.ofSeconds(15),
                                Duration.ofSeconds(1)),
                        "yard");
        try (link) {
            link.start();
            await().until(() -> link.health().connected());
            for (int i = 0; i < 210; i++) {
                link.publish("b/" + i, "1", 1, true);
            }
        }
    }

    @Test
    void a_broker_that_goes_is_said_at_once_and_what_came_before_is_kept() throws Exception {
        try (Mosquitto broker = new Mosquitto(folder)) {
            broker.start();
            broker.publish("yard/kept", "1", "-r");
            Overhearing overhearing = overhearing(broker.url(), "#");
            CompletableFuture<Heard> heard =
                    CompletableFuture.supplyAsync(() -> listen(overhearing));
            await().until(overhearing::hasHeard);

            broker.kill();

            assertThat(heard.get(20, TimeUnit.SECONDS).fault()).isPresent();
            assertThat(heard.get().topics()).hasSize(1);
        }
    }

    private static Heard listen(Overhearing overhearing) {
        try {
            return overhearing.listen(Duration.ofMinutes(10));
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    void where_no_broker_is_it_says_what_to_check() throws Exception {
        Heard heard = heard("tcp://127.0.0.1:" + FreePort.find(), "#");

        assertThat(heard.topics()).isEmpty();
        assertThat(heard.fault().orElseThrow()).contains("check that the broker runs");
    }
}
