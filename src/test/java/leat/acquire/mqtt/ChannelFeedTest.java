package leat.acquire.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import leat.config.ChannelSettings;
import leat.config.Point;
import leat.mqtt.LinkHealth;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

class ChannelFeedTest {

    private static final long NOON = 1_767_592_831_000_000L;
    private static final LinkHealth UP = new LinkHealth(true, 1, 0, 0, 0, 0, 0, "");
    private static final LinkHealth DOWN =
            new LinkHealth(false, 1, 1, 0, 0, 0, 0, "tcp://10.0.0.9:1883: connection refused");

    private final RecordingIntake intake = new RecordingIntake();
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();
    private long nanos = -77;

    @BeforeEach
    void record_the_log() {
        log.start();
        ((Logger) LoggerFactory.getLogger(ChannelFeed.class)).addAppender(log);
    }

    @AfterEach
    void stop_recording() {
        ((Logger) LoggerFactory.getLogger(ChannelFeed.class)).detachAppender(log);
    }

    @Test
    void message_without_a_time_is_stamped_on_arrival() {
        ChannelFeed feed = feed(Optional.empty());

        feed.arrived(bytes("{\"psi\":41.5}"), false);

        assertThat(intake.offered())
                .containsExactly("jet-1 " + Reading.good(Channel.INLET, NOON, 41.5));
        assertThat(feed.readings()).isEqualTo(1);
    }

    @Test
    void what_a_sensor_says_of_the_time_travels_beside_the_time_of_arrival() {
        ChannelFeed feed = feed(Optional.of("/t"));

        feed.arrived(bytes("{\"psi\":41.5,\"t\":\"2026-01-06T07:00:31+01:00\"}"), false);

        assertThat(intake.offered())
                .containsExactly(
                        "jet-1 "
                                + Reading.good(Channel.INLET, NOON, 41.5)
                                        .claiming(NOON + 86_400_000_000L));
    }

    @Test
    void first_number_that_is_no_pressure_is_logged_with_its_payload() {
        ChannelFeed feed = feed(Optional.empty());

        feed.arrived(bytes("{\"psi\":41500}"), false);
        feed.arrived(bytes("{\"psi\":41600}"), false);

        assertThat(log.list)
                .extracting(ILoggingEvent::getFormattedMessage)
                .singleElement()
                .asString()
                .contains("jet-1 inlet does not read right")
                .contains("41500 = 41500 psi, expected -14.7 to 220 psi")
                .endsWith("it begins: {\"psi\":41500}");
    }

    @Test
    void retained_message_is_no_sample() {
        ChannelFeed feed = feed(Optional.empty());

        feed.arrived(bytes("{\"psi\":41.5}"), true);
        pass(Duration.ofSeconds(5));
        feed.look(UP, "tcp://broker:1883");

        assertThat(feed.retainedIgnored()).isEqualTo(1);
        assertThat(intake.offered()).singleElement().asString().contains("SourceLost");
    }

    @Test
    void silence_is_told_once_and_the_return_comes_before_the_reading() {
        ChannelFeed feed = feed(Optional.empty());
        feed.arrived(bytes("{\"psi\":41.5}"), false);

        pass(Duration.ofMillis(4999));
        feed.look(UP, "tcp://broker:1883");
        pass(Duration.ofMillis(1));
        feed.look(UP, "tcp://broker:1883");
        pass(Duration.ofSeconds(60));
        feed.look(UP, "tcp://broker:1883");
        feed.arrived(bytes("{\"psi\":42}"), false);

        long back = NOON + 65_000_000;
        assertThat(intake.offered()).hasSize(4);
        assertThat(intake.offered().get(1))
                .contains(
                        "SourceLost",
                        "atMicros=" + (NOON + 5_000_000),
                        "no message for 5.0 s on topic boatyard/jet-1/inlet",
                        "tcp://broker:1883");
        assertThat(intake.offered().subList(2, 4))
                .containsExactly(
                        "jet-1 " + new SourceBack(Channel.INLET, back),
                        "jet-1 " + Reading.good(Channel.INLET, back, 42));
    }

    @Test
    void return_is_told_once_and_a_second_silence_again() {
        ChannelFeed feed = feed(Optional.empty());

        for (int time = 0; time < 2; time++) {
            pass(Duration.ofSeconds(6));
            feed.look(UP, "tcp://broker:1883");
            feed.arrived(bytes("{\"psi\":41}"), false);
            feed.arrived(bytes("{\"psi\":42}"), false);
        }

        assertThat(intake.offered())
                .extracting(o -> o.replaceAll("^jet-1 (\\w+).*", "$1"))
                .containsExactly(
                        "SourceLost",
                        "SourceBack",
                        "Reading",
                        "Reading",
                        "SourceLost",
                        "SourceBack",
                        "Reading",
                        "Reading");
    }

    @Test
    void channel_that_never_spoke_is_lost_too() {
        ChannelFeed feed = feed(Optional.empty());

        pass(Duration.ofSeconds(6));
        feed.look(UP, "tcp://broker:1883");

        assertThat(intake.offered()).singleElement().asString().contains("and the topic");
    }

    @Test
    void silence_without_a_broker_says_so() {
        ChannelFeed feed = feed(Optional.empty());

        pass(Duration.ofSeconds(6));
        feed.look(DOWN, "tcp://10.0.0.9:1883");

        assertThat(intake.offered())
                .singleElement()
                .asString()
                .contains("no connection to the broker: tcp://10.0.0.9:1883: connection refused");
    }

    @Test
    void malformed_payloads_do_not_break_the_silence_and_are_named_once() {
        ChannelFeed feed = feed(Optional.empty());

        for (int i = 0; i < 10; i++) {
            pass(Duration.ofSeconds(1));
            feed.arrived(bytes("\u001b[31m{\"psi\":null}\n" + "x".repeat(500)), false);
        }
        feed.look(UP, "tcp://broker:1883");

        assertThat(feed.malformedPayloads()).isEqualTo(10);
        assertThat(intake.offered())
                .singleElement()
                .asString()
                .contains("10 messages, but none that can be read");
        List<String> said =
                log.list.stream()
                        .map(ILoggingEvent::getFormattedMessage)
                        .filter(m -> m.contains("begins"))
                        .toList();
        assertThat(said).hasSize(1);
        assertThat(said.get(0))
                .contains("jet-1 inlet", "boatyard/jet-1/inlet", "\\u{1b}[31m{\"psi\":null}\\nxxx")
                .doesNotContain("\u001b", "\n")
                .doesNotContain("x".repeat(80));
    }

    @Test
    void lost_that_the_intake_cannot_take_is_offered_again() {
        ChannelFeed feed = feed(Optional.empty());
        pass(Duration.ofSeconds(6));
        intake.setFull(true);
        feed.look(UP, "tcp://broker:1883");
        intake.setFull(false);

        feed.look(UP, "tcp://broker:1883");

        assertThat(intake.offered()).singleElement().asString().contains("SourceLost");
    }

    @Test
    void reading_never_overtakes_a_return_that_the_intake_could_not_take() {
        ChannelFeed feed = feed(Optional.empty());
        pass(Duration.ofSeconds(6));
        feed.look(UP, "tcp://broker:1883");
        intake.setFull(true);
        feed.arrived(bytes("{\"psi\":41}"), false);
        intake.setFull(false);

        feed.arrived(bytes("{\"psi\":42}"), false);

        assertThat(feed.missed()).isEqualTo(1);
        assertThat(intake.offered()).hasSize(3);
        assertThat(intake.offered().get(1)).contains("SourceBack");
        assertThat(intake.offered().get(2)).contains("value=42.0");
    }

    @Test
    void loop_current_under_the_band_is_a_bad_reading_and_no_silence() {
        ChannelSettings loop =
                settings(
                        new Transducer(
                                Optional.of(TwoPoint.IDENTITY),
                                new TwoPoint(4, 0, 20, 200),
                                -14.7,
                                220),
                        topic(Optional.empty()));
        ChannelFeed feed =
                new ChannelFeed("jet-1", loop, topic(Optional.empty()), intake, () -> nanos);

        feed.arrived(bytes("{\"psi\":3.5}"), false);

        assertThat(intake.offered()).singleElement().asString().contains("LOOP_BROKEN");
    }

    private ChannelFeed feed(Optional<String> timePointer) {
        Point.Topic topic = topic(timePointer);
        Transducer psi = new Transducer(Optional.empty(), TwoPoint.IDENTITY, -14.7, 220);
        return new ChannelFeed("jet-1", settings(psi, topic), topic, intake, () -> nanos);
    }

    private static ChannelSettings settings(Transducer transducer, Point.Topic topic) {
        return new ChannelSettings(Channel.INLET, "hall", topic, transducer);
    }

    private static Point.Topic topic(Optional<String> timePointer) {
        return new Point.Topic(
                "boatyard/jet-1/inlet",
                1,
                Optional.of("/psi"),
                timePointer,
                Point.TimeFormat.ISO,
                Duration.ofSeconds(5));
    }

    private void pass(Duration time) {
        nanos += time.toNanos();
        intake.pass(time.toNanos() / 1000);
    }

    private static byte[] bytes(String text) {
        return text.getBytes(UTF_8);
    }

    @Test
    void silence_after_messages_that_could_be_read_is_silence_whatever_came_before() {
        ChannelFeed feed = feed(Optional.empty());
        feed.arrived(bytes("{\"psi\":null}"), false);
        feed.arrived(bytes("{\"psi\":41.5}"), false);

        pass(Duration.ofSeconds(6));
        feed.look(UP, "tcp://broker:1883");

        assertThat(intake.offered().get(1)).contains("no message for 6.0 s");
    }

    /** Each loss and each return is an input all the same. */
    @Test
    void sensor_that_comes_and_goes_for_an_hour_does_not_fill_the_log() {
        ChannelFeed feed = feed(Optional.empty());

        for (int i = 0; i < 600; i++) {
            pass(Duration.ofSeconds(6));
            feed.look(UP, "tcp://broker:1883");
            feed.arrived(bytes("{\"psi\":41.5}"), false);
        }

        assertThat(intake.offered()).hasSize(1_800);
        assertThat(log.list).hasSize(6 * 5);
        assertThat(log.list.get(5).getFormattedMessage())
                .contains("no message for 6.0 s", "95 losses before this one were not said");
    }
}
