package leat.bench.panel;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import leat.bench.scenario.Sample;
import leat.interop.Mosquitto;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A broker and a subscriber that we did not write. */
class MqttPanelInteropTest {

    private static final Instant SIX = Instant.parse("2026-01-05T06:00:00Z");
    private static final long SAMPLE_MICROS = 50_000;

    private final ScheduledExecutorService sampling = Executors.newSingleThreadScheduledExecutor();
    private final AtomicLong samples = new AtomicLong();
    private Mosquitto broker;

    @BeforeEach
    void start(@TempDir Path folder) throws Exception {
        broker = new Mosquitto(folder);
        broker.start();
    }

    @AfterEach
    void end() {
        sampling.shutdownNow();
        if (broker != null) {
            broker.close();
        }
    }

    private MqttPanel panel(MqttSettings.Payload payload, int qos, double hz) {
        MqttSettings settings = new MqttSettings(broker.url(), "boatyard", payload, qos, hz);
        return new MqttPanel("broker", settings, List.of("jet-1"));
    }

    /** Shows a sample every 50 ms, as a bench would. */
    private void showTo(MqttPanel panel) {
        sampling.scheduleAtFixedRate(
                () -> {
                    long micros = samples.getAndIncrement() * SAMPLE_MICROS;
                    Sample jet1 = Samples.of(micros, "jet-1", 42, 100, true);
                    Sample jet2 = Samples.of(micros, "jet-2", 42, 100, true);
                    panel.show(SIX.plusNanos(micros * 1000), List.of(jet1, jet2));
                },
                0,
                50,
                TimeUnit.MILLISECONDS);
    }

    private static void await(Mosquitto.Heard heard, int lines) {
        Awaitility.await()
                .atMost(Duration.ofSeconds(15))
                .until(() -> heard.lines().size() >= lines);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2})
    void plain_numbers_arrive_at_a_topic_for_each_channel_of_its_machines(int qos)
            throws Exception {
        Mosquitto.Heard heard = broker.listen("boatyard/#");
        try (MqttPanel panel = panel(MqttSettings.Payload.PLAIN, qos, 20)) {
            showTo(panel);

            await(heard, 50);
        }

        assertThat(heard.lines("boatyard/jet-1/inlet").get(0))
                .matches("0 boatyard/jet-1/inlet 4[12]\\.\\d{3}");
        assertThat(heard.lines("boatyard/jet-1/boosted").get(0))
                .matches("0 boatyard/jet-1/boosted (99|100)\\.\\d{3}");
        assertThat(heard.lines("boatyard/jet-1/filtered")).isNotEmpty();
        assertThat(heard.lines("boatyard/jet-1/running").get(0)).endsWith(" 1");
        assertThat(heard.lines("boatyard/jet-1/valve").get(0)).endsWith(" 1");
        assertThat(heard.lines()).noneMatch(line -> line.contains("jet-2"));
    }

    @Test
    void json_payload_has_the_time_of_its_sample() throws Exception {
        Mosquitto.Heard heard = broker.listen("boatyard/#");
        try (MqttPanel panel = panel(MqttSettings.Payload.JSON, 1, 20)) {
            showTo(panel);

            await(heard, 20);
        }

        assertThat(heard.lines("boatyard/jet-1/boosted").get(0))
                .matches(
                        ".* \\{\"psi\":\\d+\\.\\d{3},\"t\":\"2026-01-05T06:00:\\d\\d(\\.\\d+)?Z\"}");
        assertThat(heard.lines("boatyard/jet-1/running").get(0)).contains("{\"on\":1,");
    }

    @Test
    void publish_rate_below_the_sample_rate_is_kept() throws Exception {
        Mosquitto.Heard heard = broker.listen("boatyard/jet-1/inlet");
        try (MqttPanel panel = panel(MqttSettings.Payload.JSON, 0, 4)) {
            showTo(panel);

            await(heard, 6);
        }

        List<Instant> times =
                heard.lines().stream()
                        .map(line -> line.replaceAll(".*\"t\":\"(.*)\"}", "$1"))
                        .map(Instant::parse)
                        .toList();
        assertThat(Duration.between(times.get(0), times.get(5)))
                .isEqualTo(Duration.ofMillis(5 * 250));
    }

    @Test
    void lost_messages_are_holes_and_late_ones_keep_their_time_and_order() throws Exception {
        Mosquitto.Heard heard = broker.listen("boatyard/jet-1/inlet");
        MqttSettings settings =
                new MqttSettings(
                        broker.url(), "boatyard", MqttSettings.Payload.JSON, 1, 20, 300_000, 40, 7);
        try (MqttPanel panel = new MqttPanel("broker", settings, List.of("jet-1"))) {
            showTo(panel);

            await(heard, 30);
        }

        List<Long> samples =
                heard.lines().stream()
                        .map(line -> line.replaceAll(".*\"t\":\"(.*)\"}", "$1"))
                        .map(time -> Duration.between(SIX, Instant.parse(time)).toMillis() / 50)
                        .toList();
        long published = samples.get(samples.size() - 1) - samples.get(0) + 1;
        assertThat(samples).isSorted().doesNotHaveDuplicates();
        assertThat((double) samples.size() / published).isBetween(0.4, 0.8);
    }

    @Test
    void a_broker_that_dies_and_returns_is_found_again() throws Exception {
        try (MqttPanel panel = panel(MqttSettings.Payload.PLAIN, 1, 20)) {
            showTo(panel);
            await(broker.listen("boatyard/#"), 5);
            broker.kill();
            Awaitility.await().atMost(Duration.ofSeconds(10)).until(() -> panel.dropped() > 0);
            broker.start();

            await(broker.listen("boatyard/#"), 5);
        }
    }

    @Test
    void a_panel_may_come_before_its_broker() throws Exception {
        broker.kill();
        try (MqttPanel panel = panel(MqttSettings.Payload.PLAIN, 1, 20)) {
            showTo(panel);
            Awaitility.await().atMost(Duration.ofSeconds(15)).until(() -> panel.dropped() > 0);
            broker.start();

            await(broker.listen("boatyard/#"), 5);
        }
    }

    @Test
    void close_is_quick_and_leaves_no_thread_even_without_a_broker() throws Exception {
        broker.kill();
        MqttPanel panel = panel(MqttSettings.Payload.PLAIN, 1, 20);
        showTo(panel);
        long before = System.nanoTime();

        panel.close();
        panel.close();

        assertThat(Duration.ofNanos(System.nanoTime() - before)).isLessThan(Duration.ofSeconds(3));
        Awaitility.await()
                .atMost(Duration.ofSeconds(5))
                .until(
                        () ->
                                Thread.getAllStackTraces().keySet().stream()
                                        .noneMatch(t -> t.getName().startsWith("bench-mqtt")));
    }
}
