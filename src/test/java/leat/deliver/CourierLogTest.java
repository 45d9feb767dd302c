package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import leat.store.Message;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

/** What a person finds in the log of a route that does not deliver. */
class CourierLogTest {

    private static final String REFUSED = "hall:443: connection refused";
    private static final String EXPIRED = "hall:443: the server's certificate has expired";

    private final Logger logger = (Logger) LoggerFactory.getLogger(Courier.class);
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();
    private final MemoryOutbox outbox = new MemoryOutbox();
    private final Moody route = new Moody();
    private final AtomicLong nanos = new AtomicLong();
    private final Courier courier =
            new Courier(route, outbox, Patience.endless(), nanos::get, () -> 0.5);

    @BeforeEach
    void listen() {
        log.start();
        logger.addAppender(log);
        outbox.owe("hall", Changes.message(1));
    }

    @AfterEach
    void stop_listening() {
        logger.detachAppender(log);
    }

    @Test
    void same_reason_is_said_once_however_long_it_lasts() {
        route.mood = DeliveryResult.notNow(REFUSED);

        tryFor(Duration.ofDays(3));

        assertThat(said()).hasSize(1).allMatch(line -> line.endsWith("/1: " + REFUSED));
    }

    @Test
    void server_that_comes_back_with_another_trouble_is_news_though_nothing_got_through() {
        route.mood = DeliveryResult.notNow(REFUSED);
        tryFor(Duration.ofHours(1));

        route.mood = DeliveryResult.notNow(EXPIRED);
        tryFor(Duration.ofHours(1));

        assertThat(said()).hasSize(2);
        assertThat(said().get(1)).endsWith("/1: " + EXPIRED);
    }

    @Test
    void reasons_that_change_all_the_time_fill_no_disk() {
        long until = nanos.get() + Duration.ofHours(10).toNanos();
        for (int attempt = 1; nanos.get() < until; attempt++) {
            route.mood = DeliveryResult.notNow("hall:25: 451 try again, session " + attempt);
            nanos.addAndGet(courier.step().toNanos());
        }

        assertThat(said()).hasSizeBetween(50, 60);
    }

    @Test
    void failure_of_a_route_that_has_worked_meanwhile_is_news() {
        route.mood = DeliveryResult.notNow(REFUSED);
        tryFor(Duration.ofSeconds(1));
        route.mood = DeliveryResult.DELIVERED;
        tryFor(Duration.ofSeconds(10));
        outbox.owe("hall", Changes.message(2));

        route.mood = DeliveryResult.notNow(REFUSED);
        tryFor(Duration.ofSeconds(10));

        assertThat(said()).hasSize(2);
        assertThat(said().get(1)).endsWith("/2: " + REFUSED);
    }

    private void tryFor(Duration time) {
        long until = nanos.get() + time.toNanos();
        while (nanos.get() < until) {
            nanos.addAndGet(courier.step().toNanos());
        }
    }

    private List<String> said() {
        return log.list.stream()
                .filter(event -> event.getLevel() == Level.WARN)
                .map(ILoggingEvent::getFormattedMessage)
                .toList();
    }

    private static final class Moody implements Route {

        private DeliveryResult mood = DeliveryResult.DELIVERED;

        @Override
        public String name() {
            return "hall";
        }

        @Override
        public void start(Runnable reachable) {
            // the test steps
        }

        @Override
        public DeliveryResult deliver(Message message) {
            return mood;
        }

        @Override
        public void close() {
            // nothing was opened
        }
    }
}
