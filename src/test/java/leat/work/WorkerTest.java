package leat.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.AppenderBase;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.slf4j.LoggerFactory;

/** A thread that does its work until it is told to end, whatever its work does. */
@Timeout(60)
class WorkerTest {

    private static final Duration LONG = Duration.ofMinutes(10);
    private static final Duration SHORT = Duration.ofMillis(50);
    private static final long REST_NANOS = Duration.ofMillis(200).toNanos();

    private final Logger logger = (Logger) LoggerFactory.getLogger(Worker.class);
    private final Heard log = new Heard();
    private final AtomicInteger steps = new AtomicInteger();

    @BeforeEach
    void listen() {
        log.start();
        logger.addAppender(log);
    }

    @AfterEach
    void stop_listening() {
        logger.detachAppender(log);
    }

    @Test
    void steps_follow_one_another_after_the_pause_that_each_asks_for() {
        try (Worker worker = worker(() -> steps.incrementAndGet() < 5 ? Duration.ZERO : LONG)) {
            worker.start();

            await().until(() -> steps.get() == 5);
            await().until(() -> threadOf("under-test").getState() == Thread.State.TIMED_WAITING);
            assertThat(steps).hasValue(5);
        }
    }

    @Test
    void a_worker_that_is_woken_rests_no_longer() {
        try (Worker worker = counting()) {
            worker.start();
            await().until(() -> steps.get() == 1);

            worker.wake();

            await().until(() -> steps.get() == 2);
        }
    }

    @Test
    void whoever_wakes_it_during_a_step_gets_one_more_step() {
        CountDownLatch running = new CountDownLatch(1);
        CountDownLatch go = new CountDownLatch(1);
        Worker.Step step =
                () -> {
                    running.countDown();
                    go.await();
                    steps.incrementAndGet();
                    return LONG;
                };
        try (Worker worker = worker(step)) {
            worker.start();
            await().until(() -> running.getCount() == 0);
            worker.wake();
            worker.wake();

            go.countDown();

            await().until(() -> steps.get() == 2);
            await().until(() -> threadOf("under-test").getState() == Thread.State.TIMED_WAITING);
            assertThat(steps).hasValue(2);
        }
    }

    @Test
    void bugs_are_counted_logged_once_each_in_full_and_survived() {
        Worker.Step step =
                () -> {
                    int number = steps.incrementAndGet();
                    if (number == 3) {
                        throw new AssertionError("an error too");
                    }
                    if (number <= 4) {
                        throw new IllegalStateException("broken on purpose");
                    }
                    return LONG;
                };
        try (Worker worker = worker(step)) {
            worker.start();

            await().until(() -> steps.get() == 5);

            assertThat(worker.faults())
                    .isEqualTo(
                            new Faults(
                                    4,
                                    "java.lang.IllegalStateException: broken on purpose",
                                    "java.lang.IllegalStateException: broken on purpose"));
            assertThat(log.lines())
                    .containsExactly(
                            "under-test: a step failed, going on",
                            "under-test: a step failed, going on");
            assertThat(log.events)
                    .extracting(event -> event.getThrowableProxy().getMessage())
                    .containsExactly("broken on purpose", "an error too");
        }
    }

    @Test
    void an_interrupt_from_anybody_else_is_a_bug_and_not_the_end() {
        try (Worker worker = counting()) {
            worker.start();
            await().until(() -> steps.get() == 1);

            threadOf("under-test").interrupt();

            await().until(() -> steps.get() == 2);
            assertThat(worker.faults().count()).isEqualTo(1);
            assertThat(worker.faults().first()).contains("InterruptedException");
        }
    }

    @Test
    void a_worker_that_is_woken_all_the_time_does_not_spin_on_a_bug() {
        List<Long> begun = new CopyOnWriteArrayList<>();
        Worker[] self = new Worker[1];
        self[0] =
                worker(
                        () -> {
                            begun.add(System.nanoTime());
                            self[0].wake();
                            self[0].wake();
                            throw new IllegalStateException("broken on purpose");
                        });
        try (Worker worker = self[0]) {
            worker.start();

            await().until(() -> begun.size() >= 3);

            assertThat(begun.get(1) - begun.get(0)).isGreaterThanOrEqualTo(REST_NANOS);
            assertThat(begun.get(2) - begun.get(1)).isGreaterThanOrEqualTo(REST_NANOS);
        }
    }

    @Test
    void the_end_lets_a_running_step_finish() {
        AtomicBoolean finished = new AtomicBoolean();
        Worker[] self = new Worker[1];
        self[0] =
                worker(
                        () -> {
                            steps.incrementAndGet();
                            await().until(self[0]::isClosing);
                            finished.set(true);
                            return LONG;
                        });
        self[0].start();
        await().until(() -> steps.get() == 1);

        boolean ended = self[0].end();

        assertThat(ended).isTrue();
        assertThat(finished).isTrue();
        assertThat(self[0].faults()).isEqualTo(Faults.NONE);
    }

    @Test
    void a_step_that_waits_too_long_is_interrupted_at_the_end_and_that_is_no_bug() {
        CountDownLatch running = new CountDownLatch(1);
        Worker.Step step =
                () -> {
                    running.countDown();
                    new CountDownLatch(1).await();
                    return LONG;
                };
        Worker worker = new Worker("under-test", step, SHORT, Duration.ofSeconds(20));
        worker.start();
        await().until(() -> running.getCount() == 0);

        assertThat(worker.end()).isTrue();
        assertThat(worker.faults()).isEqualTo(Faults.NONE);
        assertThat(log.lines()).isEmpty();
    }

    @Test
    void a_step_that_heeds_no_interrupt_is_named_with_its_place_and_left() {
        CountDownLatch running = new CountDownLatch(1);
        AtomicBoolean go = new AtomicBoolean();
        Worker.Step step =
                () -> {
                    running.countDown();
                    stayUntil(go);
                    return LONG;
                };
        Worker worker = new Worker("under-test", step, SHORT, SHORT.multipliedBy(2));
        worker.start();
        await().until(() -> running.getCount() == 0);

        assertThat(worker.end()).isFalse();
        assertThat(log.lines())
                .singleElement()
                .asString()
                .startsWith("thread under-test has not ended in time, it is at [")
                .contains("stayUntil");

        go.set(true);
        await().until(worker::end);
    }

    @Test
    void an_interrupt_of_whoever_closes_ends_the_wait_and_is_kept() {
        CountDownLatch running = new CountDownLatch(1);
        AtomicBoolean go = new AtomicBoolean();
        Worker.Step step =
                () -> {
                    running.countDown();
                    stayUntil(go);
                    return LONG;
                };
        Worker worker = new Worker("under-test", step, LONG, LONG.multipliedBy(2));
        worker.start();
        await().until(() -> running.getCount() == 0);
        Thread.currentThread().interrupt();

        worker.close();

        assertThat(Thread.interrupted()).isTrue();
        go.set(true);
        await().until(worker::end);
    }

    @Test
    void closing_twice_or_unstarted_does_no_harm_and_nothing_starts_twice_or_after_the_end() {
        Worker never = counting();
        never.close();
        assertThat(never.start()).isFalse();

        Worker worker = counting();
        assertThat(worker.start()).isTrue();
        assertThat(worker.start()).isFalse();
        await().until(() -> steps.get() == 1);
        worker.close();
        worker.close();

        assertThat(worker.end()).isTrue();
        assertThat(worker.isClosing()).isTrue();
        assertThat(worker.start()).isFalse();
        assertThat(steps).hasValue(1);
    }

    @Test
    void a_worker_that_closes_itself_ends_after_its_step() {
        Worker[] self = new Worker[1];
        self[0] =
                worker(
                        () -> {
                            steps.incrementAndGet();
                            self[0].close();
                            return Duration.ZERO;
                        });

        self[0].start();

        await().until(() -> self[0].isClosing());
        assertThat(self[0].end()).isTrue();
        assertThat(steps).hasValue(1);
    }

    @Test
    void bounds_that_leave_no_time_for_an_interrupt_are_refused() {
        assertThatThrownBy(() -> new Worker("under-test", () -> LONG, SHORT, SHORT))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("under-test");
    }

    private Worker counting() {
        return worker(
                () -> {
                    steps.incrementAndGet();
                    return LONG;
                });
    }

    private static Worker worker(Worker.Step step) {
        return new Worker("under-test", step, Duration.ofSeconds(10), Duration.ofSeconds(20));
    }

    private static void stayUntil(AtomicBoolean go) {
        while (!go.get()) {
            Thread.onSpinWait();
        }
    }

    private static Thread threadOf(String name) {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().equals(name) && thread.isAlive())
                .findFirst()
                .orElseThrow();
    }

    private static final class Heard extends AppenderBase<ILoggingEvent> {
        private final List<ILoggingEvent> events = new CopyOnWriteArrayList<>();

        @Override
        protected void append(ILoggingEvent event) {
            events.add(event);
        }

        List<String> lines() {
            return events.stream().map(ILoggingEvent::getFormattedMessage).toList();
        }
    }
}
