package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What every route must do, against its real other side. */
@Timeout(60)
abstract class RouteContract {

    private Route route;

    /** A route to another side that is reachable. */
    abstract Route open() throws Exception;

    /** What the other side got: the number of each message, in order, once per delivery. */
    abstract List<Integer> arrived() throws Exception;

    @BeforeEach
    final void open_the_route() throws Exception {
        route = open();
    }

    @AfterEach
    final void close_the_route() {
        route.close();
        route.close();
    }

    final Route route() {
        return route;
    }

    @Test
    final void delivered_messages_have_arrived_in_order() {
        route.start(() -> {});

        List<DeliveryResult> results =
                List.of(
                        route.deliver(Changes.message(1)),
                        route.deliver(Changes.message(2)),
                        route.deliver(Changes.message(3)));

        assertThat(results).containsOnly(DeliveryResult.DELIVERED);
        await().until(() -> arrived().equals(List.of(1, 2, 3)));
    }

    @Test
    final void repeat_of_a_message_is_delivered_again() {
        route.start(() -> {});

        route.deliver(Changes.message(1));
        route.deliver(Changes.message(1));

        await().until(() -> arrived().equals(List.of(1, 1)));
    }

    @Test
    final void start_returns_at_once_and_the_name_is_the_one_in_the_configuration() {
        AtomicInteger reachable = new AtomicInteger();

        route.start(reachable::incrementAndGet);

        assertThat(route.name()).isEqualTo("hall");
    }
}
