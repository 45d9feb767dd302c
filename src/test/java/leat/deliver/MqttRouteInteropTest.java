package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import leat.Gear;
import leat.config.ConnectionSettings;
import leat.interop.Mosquitto;
import leat.mqtt.Cable;
import leat.mqtt.MqttLink;
import leat.tls.Trust;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The broker is mosquitto, the receiver mosquitto_sub; neither is ours. */
class MqttRouteInteropTest extends RouteContract {

    @TempDir Path folder;

    private Mosquitto broker;
    private Cable cable;
    private MqttLink link;
    private Mosquitto.Heard events;

    @Override
    Route open() throws Exception {
        broker = new Mosquitto(folder);
        broker.start();
        cable = new Cable(broker.port());
        events = listenFor("leat/boatyard/event");
        link = new MqttLink(settings(cable.url()), "Boatyard");
        link.start();
        await().until(() -> link.health().connected());
        return new MqttRoute("hall", link, "leat/boatyard");
    }

    @AfterEach
    void close_broker_and_link() throws Exception {
        link.close();
        cable.close();
        broker.close();
    }

    @Override
    List<Integer> arrived() {
        return numbers(events);
    }

    @Test
    void last_state_of_an_alarm_stands_for_whoever_comes_later() throws Exception {
        route().deliver(Changes.message(1));
        route().deliver(Changes.message(2));

        Mosquitto.Heard later = broker.listen("leat/boatyard/#");

        await().until(() -> !later.lines().isEmpty());
        assertThat(later.lines())
                .containsExactly("1 leat/boatyard/jet-1/alarm/ratio {\"number\":2}");
        await().until(() -> arrived().equals(List.of(1, 2)));
        assertThat(events.lines()).allMatch(line -> line.startsWith("0 "));
    }

    @Test
    void broker_that_is_away_delays_and_loses_nothing_and_keeps_the_order() throws Exception {
        MemoryOutbox outbox = new MemoryOutbox();
        IntStream.rangeClosed(1, 5).forEach(n -> outbox.owe("hall", Changes.message(n)));
        Courier courier =
                new Courier(route(), outbox, Patience.endless(), System::nanoTime, () -> 0.5);
        courier.start();
        await().until(() -> arrived().equals(List.of(1, 2, 3, 4, 5)));

        broker.kill();
        await().until(() -> !link.health().connected());
        IntStream.rangeClosed(6, 200)
                .forEach(
                        n -> {
                            outbox.owe("hall", Changes.message(n));
                            courier.nudge();
                        });
        await().until(() -> courier.health().failed() >= 2);
        broker.start();
        Mosquitto.Heard again = listenFor("leat/boatyard/event");

        await().atMost(Duration.ofSeconds(20)).until(() -> outbox.delivered().size() == 200);
        List<Integer> heard = numbers(again);
        assertThat(outbox.delivered()).isSorted();
        assertThat(heard.stream().distinct().toList())
                .isEqualTo(IntStream.rangeClosed(6, 200).boxed().toList());
        courier.close();
    }

    @Tag(Gear.THOROUGH)
    @Test
    void cable_cut_at_any_moment_loses_nothing() throws Exception {
        MemoryOutbox outbox = new MemoryOutbox();
        IntStream.rangeClosed(1, 300).forEach(n -> outbox.owe("hall", Changes.message(n)));
        Courier courier =
                new Courier(route(), outbox, Patience.endless(), System::nanoTime, () -> 0.5);
        courier.start();

        for (int cut = 1; cut <= 4; cut++) {
            int due = 50 * cut;
            await().pollInterval(Duration.ofMillis(1))
                    .until(() -> outbox.delivered().size() >= due);
            cable.cut();
        }

        await().atMost(Duration.ofSeconds(20)).until(() -> outbox.delivered().size() == 300);
        await().until(
                        () ->
                                arrived().stream()
                                        .distinct()
                                        .toList()
                                        .equals(IntStream.rangeClosed(1, 300).boxed().toList()));
        assertThat(link.health().connects()).isGreaterThan(1);
        courier.close();
    }

    @Tag(Gear.THOROUGH)
    @Test
    void broker_that_does_not_answer_is_a_reason_and_no_hang() throws Exception {
        cable.setDead(true);
        long begun = System.nanoTime();

        DeliveryResult result = route().deliver(Changes.message(1));

        assertThat(result.delivered()).isFalse();
        assertThat(result.reason()).contains(cable.url(), "no answer within 5.0 s");
        assertThat(Duration.ofNanos(System.nanoTime() - begun)).isLessThan(Duration.ofSeconds(8));
    }

    /** Listens, and returns once the broker has taken the subscription. */
    private Mosquitto.Heard listenFor(String topic) throws Exception {
        Mosquitto.Heard heard = broker.listen(topic);
        await().pollInterval(Duration.ofMillis(50))
                .until(
                        () -> {
                            broker.publish(topic, "{\"number\":0}");
                            return !heard.lines().isEmpty();
                        });
        return heard;
    }

    private static List<Integer> numbers(Mosquitto.Heard heard) {
        return heard.lines().stream()
                .map(line -> Integer.parseInt(line.replaceAll(".*:(\\d+)}", "$1")))
                .filter(number -> number > 0)
                .toList();
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
                Duration.ofMillis(700));
    }
}
