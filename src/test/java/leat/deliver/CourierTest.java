package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import leat.store.Message;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(30)
class CourierTest {

    private final MemoryOutbox outbox = new MemoryOutbox();
    private final FakeRoute route = new FakeRoute("hall");
    private final AtomicLong nanos = new AtomicLong(-5);
    private final Courier courier =
            new Courier(route, outbox, Patience.endless(), nanos::get, () -> 0.5);

    @Test
    void messages_go_out_in_order_and_are_noted_as_delivered() {
        owe(1, 120);

        List<Duration> pauses = List.of(courier.step(), courier.step(), courier.step());

        assertThat(route.carried()).isEqualTo(IntStream.rangeClosed(1, 120).boxed().toList());
        assertThat(outbox.delivered()).isEqualTo(LongStream.rangeClosed(1, 120).boxed().toList());
        assertThat(pauses.get(0)).isZero();
        assertThat(pauses.get(1)).isZero();
        assertThat(pauses.get(2)).isPositive();
    }

    @Test
    void store_that_notes_deliveries_later_causes_no_repeat() {
        outbox.setSlow();
        owe(1, 3);

        courier.step();
        owe(4, 4);
        courier.step();

        assertThat(route.carried()).containsExactly(1, 2, 3, 4);
    }

    @Test
    void what_waits_in_a_store_that_cannot_be_read_is_told_after_what_is_told_from_memory() {
        owe(1, 5);
        outbox.hide(3);
        outbox.setSlow();

        courier.step();
        outbox.hide(0);
        courier.step();
        courier.step();

        assertThat(route.carried()).containsExactly(4, 5, 1, 2, 3);
    }

    @Test
    void messages_of_another_route_are_left_alone() {
        outbox.owe("yard", Changes.message(1));
        outbox.owe("hall", Changes.message(2));

        courier.step();

        assertThat(route.carried()).containsExactly(2);
    }

    @Test
    void message_that_cannot_be_delivered_holds_back_those_behind_it() {
        owe(1, 3);
        route.fail("broker away");

        Duration pause = courier.step();
        route.work();
        nanos.addAndGet(pause.toNanos() - 1);
        courier.step();
        List<Integer> before = route.carried();
        nanos.addAndGet(1);
        courier.step();

        assertThat(before).isEmpty();
        assertThat(route.carried()).containsExactly(1, 2, 3);
        assertThat(courier.health().failed()).isEqualTo(1);
        assertThat(courier.health().lastReason()).contains("/1: broker away");
    }

    @Test
    void pause_grows_to_a_minute_and_the_tries_never_end() {
        owe(1, 1);
        route.fail("broker away");

        List<Long> pauses = new ArrayList<>();
        for (int i = 0; i < 1000; i++) {
            Duration pause = courier.step();
            pauses.add(pause.toMillis());
            nanos.addAndGet(pause.toNanos());
        }
        route.work();
        courier.step();

        assertThat(pauses.subList(0, 8))
                .containsExactly(1000L, 1500L, 3000L, 6000L, 12000L, 24000L, 45000L, 45000L);
        assertThat(pauses).allMatch(pause -> pause >= 1000 && pause <= 60_000);
        assertThat(route.carried()).containsExactly(1);
    }

    @Test
    void pause_is_spread_by_chance_and_keeps_its_bounds() {
        Random random = new Random(7);
        for (int run = 0; run < 10_000; run++) {
            int failures = 1 + random.nextInt(100_000);

            Duration pause = Courier.pauseAfter(failures, random.nextDouble());

            assertThat(pause)
                    .as("seed 7, run %d", run)
                    .isBetween(Duration.ofSeconds(1), Duration.ofSeconds(60));
        }
        assertThat(Courier.pauseAfter(9, 0)).isEqualTo(Duration.ofSeconds(30));
        assertThat(Courier.pauseAfter(9, 0.999)).isGreaterThan(Duration.ofSeconds(59));
    }

    @Test
    void new_messages_do_not_hurry_a_dead_route_but_its_return_does() {
        owe(1, 1);
        route.fail("broker away");
        courier.start();
        await().until(() -> courier.health().failed() == 1);

        owe(2, 2);
        courier.nudge();
        route.work();
        route.comeBack();

        await().until(() -> route.carried().equals(List.of(1, 2)));
        assertThat(courier.health().failed()).isEqualTo(1);
        courier.close();
    }

    @Test
    void nudge_wakes_a_courier_that_has_nothing_to_do() {
        Courier real = new Courier(route, outbox, Patience.endless(), System::nanoTime, () -> 0.5);
        real.start();
        outbox.owe("hall", Changes.message(1));

        real.nudge();

        await().atMost(Duration.ofSeconds(2)).until(() -> route.carried().equals(List.of(1)));
        real.close();
    }

    @Test
    void message_whose_delivery_could_not_be_noted_goes_out_again_with_the_same_id() {
        owe(1, 2);
        route.afterNext(() -> outbox.failNext(1));

        Duration pause = courier.step();
        nanos.addAndGet(pause.toNanos());
        courier.step();

        assertThat(route.carried()).containsExactly(1, 1, 2);
        assertThat(outbox.delivered()).containsExactly(1L, 2L);
    }

    @Test
    void store_that_fails_is_asked_again() {
        owe(1, 1);
        outbox.failNext(1);

        Duration pause = courier.step();
        nanos.addAndGet(pause.toNanos());
        courier.step();

        assertThat(route.carried()).containsExactly(1);
        assertThat(courier.health().lastReason()).contains("disk full");
    }

    @Test
    void route_that_throws_loses_no_message() {
        owe(1, 1);
        route.afterNext(
                () -> {
                    throw new IllegalStateException("a bug");
                });

        Duration pause = courier.step();
        nanos.addAndGet(pause.toNanos());
        courier.step();

        assertThat(outbox.delivered()).containsExactly(1L);
    }

    @Test
    void route_that_hangs_delays_no_other_and_is_given_up_at_the_end() throws Exception {
        CountDownLatch never = new CountDownLatch(1);
        FakeRoute stuck = new FakeRoute("stuck");
        stuck.hangOn(never);
        outbox.owe("stuck", Changes.message(1));
        outbox.owe("hall", Changes.message(2));
        Courier first = new Courier(stuck, outbox, Patience.endless(), System::nanoTime, () -> 0.5);
        first.start();
        courier.start();

        await().until(() -> route.carried().equals(List.of(2)));
        long begun = System.nanoTime();
        first.close();
        first.close();
        courier.close();

        assertThat(Duration.ofNanos(System.nanoTime() - begun)).isLessThan(Duration.ofSeconds(3));
        assertThat(Thread.getAllStackTraces().keySet())
                .noneMatch(thread -> thread.getName().startsWith("leat-courier-"));
        assertThat(stuck.isClosed()).isTrue();
    }

    @Test
    void message_refused_for_good_is_given_up_and_the_next_has_its_turn() {
        owe(1, 3);
        route.refuse(2, "no such mailbox");

        courier.step();

        assertThat(route.carried()).containsExactly(1, 3);
        assertThat(outbox.givenUp()).containsExactly("2 no such mailbox");
        assertThat(outbox.attempted()).isEmpty();
        assertThat(courier.health().givenUp()).isEqualTo(1);
        assertThat(courier.health().lastReason()).isEqualTo("no such mailbox");
    }

    @Test
    void message_that_is_too_old_is_given_up_after_an_hour_of_tries_and_a_young_one_is_not() {
        AtomicLong micros = new AtomicLong(Changes.RAISED + Duration.ofDays(4).toNanos() / 1000);
        Courier patient =
                new Courier(
                        route,
                        outbox,
                        new Patience(Duration.ofHours(72), micros::get),
                        nanos::get,
                        () -> 0.5);
        owe(1, 2);
        outbox.owe("hall", at(3, micros.get()));
        route.fail("server away");

        patient.step();
        List<String> atOnce = outbox.givenUp();
        nanos.addAndGet(Duration.ofMinutes(59).toNanos());
        patient.step();
        List<String> before = outbox.givenUp();
        nanos.addAndGet(Duration.ofMinutes(1).toNanos());
        patient.step();
        route.work();
        nanos.addAndGet(Duration.ofMinutes(2).toNanos());
        patient.step();

        assertThat(atOnce).isEmpty();
        assertThat(before).isEmpty();
        assertThat(outbox.givenUp())
                .containsExactly(
                        "1 not delivered within 72 h; server away",
                        "2 not delivered within 72 h; server away");
        assertThat(route.carried()).containsExactly(3);
    }

    @Test
    void clock_that_was_set_by_years_gives_nothing_up_while_the_route_works() {
        AtomicLong micros = new AtomicLong(Changes.RAISED + Duration.ofDays(9000).toNanos() / 1000);
        Courier patient =
                new Courier(
                        route,
                        outbox,
                        new Patience(Duration.ofHours(72), micros::get),
                        nanos::get,
                        () -> 0.5);
        owe(1, 1);

        patient.step();

        assertThat(route.carried()).containsExactly(1);
        assertThat(outbox.givenUp()).isEmpty();
    }

    @Test
    void other_side_that_asks_to_be_left_alone_is_within_bounds() {
        owe(1, 1);
        route.fail("too many requests", Duration.ofMinutes(5));
        Duration asked = courier.step();
        nanos.addAndGet(asked.toNanos() - 1);
        Duration left = courier.step();
        nanos.addAndGet(1);
        route.fail("too many requests", Duration.ofDays(3));
        Duration tooLong = courier.step();
        nanos.addAndGet(tooLong.toNanos());
        route.fail("too many requests", Duration.ofMillis(1));
        Duration tooShort = courier.step();

        assertThat(asked).isEqualTo(Duration.ofMinutes(5));
        assertThat(left).as("not tried before, whatever wakes the courier").isPositive();
        assertThat(tooLong).isEqualTo(Duration.ofMinutes(15));
        assertThat(tooShort).isEqualTo(Duration.ofSeconds(3));
        assertThat(outbox.attempted()).containsExactly(1L, 1L, 1L);
    }

    private static Message at(int number, long micros) {
        Message message = Changes.message(number);
        return new Message(
                message.id(),
                message.route(),
                message.machine(),
                message.alarmId(),
                message.grade(),
                micros,
                message.topic(),
                message.kind(),
                message.event(),
                message.subject(),
                message.text(),
                message.json(),
                message.foldedInto());
    }

    private void owe(int from, int to) {
        IntStream.rangeClosed(from, to).forEach(n -> outbox.owe("hall", Changes.message(n)));
    }

    /** A route whose other side a test controls. */
    private static final class FakeRoute implements Route {
        private final String name;
        private final List<Integer> carried = Collections.synchronizedList(new ArrayList<>());
        private volatile String trouble = "";
        private volatile Duration asked = Duration.ZERO;
        private volatile int refusedNumber;
        private volatile String refusal = "";
        private volatile Runnable afterNext = () -> {};
        private volatile Runnable reachable = () -> {};
        private volatile CountDownLatch hang = new CountDownLatch(0);
        private volatile boolean closed;

        FakeRoute(String name) {
            this.name = name;
        }

        @Override
        public String name() {
            return name;
        }

        @Override
        public void start(Runnable whenReachable) {
            reachable = whenReachable;
        }

        @Override
        public DeliveryResult deliver(Message message) {
            try {
                hang.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return DeliveryResult.notNow("interrupted");
            }
            if (!trouble.isEmpty()) {
                return DeliveryResult.notNow(trouble, asked);
            }
            int number = Integer.parseInt(message.id().replaceFirst(".*/", ""));
            if (number == refusedNumber) {
                return DeliveryResult.refused(refusal);
            }
            carried.add(number);
            Runnable then = afterNext;
            afterNext = () -> {};
            then.run();
            return DeliveryResult.DELIVERED;
        }

        @Override
        public void close() {
            closed = true;
        }

        void fail(String reason) {
            trouble = reason;
        }

        void fail(String reason, Duration pause) {
            trouble = reason;
            asked = pause;
        }

        void refuse(int number, String reason) {
            refusedNumber = number;
            refusal = reason;
        }

        void work() {
            trouble = "";
        }

        void comeBack() {
            reachable.run();
        }

        void afterNext(Runnable work) {
            afterNext = work;
        }

        void hangOn(CountDownLatch latch) {
            hang = latch;
        }

        boolean isClosed() {
            return closed;
        }

        List<Integer> carried() {
            synchronized (carried) {
                return List.copyOf(carried);
            }
        }
    }
}
