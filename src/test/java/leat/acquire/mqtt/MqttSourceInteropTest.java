package leat.acquire.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import leat.config.ChannelSettings;
import leat.config.ConnectionSettings;
import leat.config.MachineSettings;
import leat.config.Point;
import leat.interop.Mosquitto;
import leat.mqtt.MqttLink;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Contact;
import leat.signal.Conversion;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import leat.tls.Trust;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The sensor is mosquitto_pub, the broker mosquitto. */
@Timeout(60)
class MqttSourceInteropTest {

    private static final Transducer PSI =
            new Transducer(Optional.empty(), TwoPoint.IDENTITY, -14.7, 220);

    @TempDir Path folder;

    private final RecordingIntake intake = new RecordingIntake();

    @Test
    void sensor_is_heard_falls_silent_and_comes_back_after_the_broker_was_killed()
            throws Exception {
        try (Mosquitto broker = new Mosquitto(folder);
                MqttLink link = new MqttLink(settings(broker.url()), "Boatyard");
                MqttSource source =
                        new MqttSource(link, List.of(jet()), intake, System::nanoTime)) {
            broker.start();
            source.start();
            link.start();
            await().until(() -> source.health().connected());
            broker.publish("jet-1/feed", "{\"in\":41.5,\"out\":102.25}");
            broker.publish("jet-1/run", "on");
            await().until(() -> source.health().readings() == 3);

            broker.kill();
            await().until(() -> intake.offered().size() == 6);
            broker.start();
            await().until(() -> source.health().connected());
            broker.publish("jet-1/feed", "{\"in\":42.5,\"out\":103.25}");

            await().until(() -> source.health().readings() == 5);
            List<String> offered = intake.offered();
            assertThat(offered.get(0)).contains("Reading", "INLET", "41.5", "GOOD");
            assertThat(offered.get(1)).contains("Reading", "BOOSTED", "102.25", "GOOD");
            assertThat(offered.get(2)).contains("Reading", "RUNNING", "1.0", "GOOD");
            assertThat(offered.subList(3, 6))
                    .allMatch(o -> o.contains("SourceLost"))
                    .allMatch(o -> o.contains("no connection to the broker: " + broker.url()));
            assertThat(offered.subList(6, 10))
                    .extracting(o -> o.replaceAll("^jet-1 (\\w+)\\[channel=(\\w+).*", "$1 $2"))
                    .containsExactly(
                            "SourceBack INLET",
                            "Reading INLET",
                            "SourceBack BOOSTED",
                            "Reading BOOSTED");
        }
    }

    @Test
    void what_the_broker_had_kept_is_not_taken_for_a_sample() throws Exception {
        try (Mosquitto broker = new Mosquitto(folder);
                MqttLink link = new MqttLink(settings(broker.url()), "Boatyard");
                MqttSource source =
                        new MqttSource(link, List.of(jet()), intake, System::nanoTime)) {
            broker.start();
            broker.publish("jet-1/feed", "{\"in\":1,\"out\":2}", "-r");

            source.start();
            link.start();
            await().until(() -> source.retainedIgnored() == 2);
            broker.publish("jet-1/feed", "{\"in\":3,\"out\":4}", "-r");

            await().until(() -> source.health().readings() == 2);
            assertThat(intake.offered().get(0)).contains("3.0");
            assertThat(intake.offered().get(1)).contains("4.0");
        }
    }

    @Test
    void garbage_and_a_megabyte_of_it_harm_nothing() throws Exception {
        Path big = folder.resolve("big");
        Files.write(big, new byte[3_000_000]);
        try (Mosquitto broker = new Mosquitto(folder);
                MqttLink link = new MqttLink(settings(broker.url()), "Boatyard");
                MqttSource source =
                        new MqttSource(link, List.of(jet()), intake, System::nanoTime)) {
            broker.start();
            source.start();
            link.start();
            await().until(() -> source.health().connected());

            broker.publish("jet-1/feed", "\u0001\u0002 not json");
            broker.publishFile("jet-1/feed", big);
            broker.publish("jet-1/feed", "{\"in\":41.5,\"out\":102.25}");

            await().until(() -> source.health().readings() == 2);
            assertThat(source.health().faults()).isEqualTo(4);
            assertThat(source.health().connected()).isTrue();
            assertThat(intake.offered()).hasSize(2);
        }
    }

    private static MachineSettings jet() {
        return new MachineSettings(
                "jet-1",
                List.of(
                        channel(Channel.INLET, "jet-1/feed", Optional.of("/in"), PSI),
                        channel(Channel.BOOSTED, "jet-1/feed", Optional.of("/out"), PSI),
                        channel(Channel.RUNNING, "jet-1/run", Optional.empty(), new Contact(false)),
                        new ChannelSettings(
                                Channel.FILTERED,
                                "another",
                                topic("jet-1/other", Optional.empty()),
                                PSI)),
                Limits.DEFAULTS);
    }

    private static ChannelSettings channel(
            Channel channel, String topic, Optional<String> pointer, Conversion conversion) {
        return new ChannelSettings(channel, "hall", topic(topic, pointer), conversion);
    }

    private static Point.Topic topic(String topic, Optional<String> pointer) {
        return new Point.Topic(
                topic, 1, pointer, Optional.empty(), Point.TimeFormat.ISO, Duration.ofMillis(1500));
    }

    private static ConnectionSettings.Mqtt settings(String url) {
        return new ConnectionSettings.Mqtt(
                "hall",
                url,
                "leat-test",
                Optional.empty(),
                Optional.empty(),
                Trust.OF_THE_RUNTIME,
                Optional.empty(),
                Duration.ofSeconds(15),
                Duration.ofMillis(300));
    }
}
