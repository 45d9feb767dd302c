package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.UnknownHostException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import leat.Gear;
import leat.acquire.Intake;
import leat.acquire.RecordingIntake;
import leat.config.ConnectionSettings.ModbusTcp;
import leat.signal.Channel;
import leat.signal.Input;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Connections that share one thread: what one of them meets, the others do not feel. */
@Timeout(60)
class PollingThreadTest {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration LONG = Duration.ofSeconds(30);
    private static final int ENOUGH = 20;

    /** Longer than a period, by which two deadlines may differ. */
    private static final Duration HELD = Duration.ofMillis(50);

    private final PollingThread thread = new PollingThread();
    private final RecordingIntake mine = new RecordingIntake();
    private final RecordingIntake others = new RecordingIntake();

    @Test
    void one_thread_polls_all_and_ends_with_the_last() throws Exception {
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource first = source(device.port(), mine, thread);
                ModbusSource second = source(device.port(), others, thread)) {
            first.start();
            second.start();
            await().until(() -> mine.readings(Channel.INLET).size() >= ENOUGH);
            await().until(() -> others.readings(Channel.INLET).size() >= ENOUGH);
            assertThat(pollingThreads()).hasSize(1);

            stop(first);
            int left = mine.all().size();
            int going = others.all().size();
            await().until(() -> others.all().size() >= going + ENOUGH);
            assertThat(mine.all()).hasSize(left);
            assertThat(pollingThreads()).hasSize(1);

            stop(second);
            assertThat(pollingThreads()).isEmpty();
        }
    }

    @Test
    void many_connections_need_no_more_threads_than_one() throws Exception {
        int many = Gear.of(8, 128);
        List<ModbusSource> sources = new ArrayList<>();
        try (FakeDevice device = new FakeDevice(echo())) {
            for (int i = 0; i < many; i++) {
                sources.add(source(device.port(), mine, thread));
            }
            sources.forEach(ModbusSource::start);

            await().until(() -> sources.stream().allMatch(s -> s.health().readings() >= ENOUGH));

            assertThat(device.connections()).isEqualTo(many);
            assertThat(pollingThreads()).hasSize(1);
        } finally {
            sources.forEach(ModbusSource::close);
        }
        assertThat(pollingThreads()).isEmpty();
    }

    @Test
    void it_begins_anew_after_it_has_ended() throws Exception {
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource first = source(device.port(), mine, thread);
                ModbusSource second = source(device.port(), others, thread)) {
            first.start();
            await().until(() -> !mine.all().isEmpty());
            stop(first);

            second.start();

            await().until(() -> others.readings(Channel.INLET).size() >= ENOUGH);
        }
    }

    @Test
    void a_device_that_does_not_answer_holds_up_nobody() throws Exception {
        CountDownLatch asked = new CountDownLatch(1);
        try (FakeDevice silent = new FakeDevice((number, request, out) -> asked.countDown());
                FakeDevice device = new FakeDevice(echo());
                ModbusSource waiting = source(silent.port(), mine, thread);
                ModbusSource polled = source(device.port(), others, thread)) {
            waiting.start();
            asked.await();

            polled.start();

            await().until(() -> others.readings(Channel.INLET).size() >= ENOUGH);
            assertThat(waiting.health().faults()).as("it waits still").isZero();
        }
    }

    @Test
    void a_name_that_is_looked_up_for_ever_holds_up_nobody_and_is_a_loss_with_what_to_check()
            throws Exception {
        CountDownLatch never = new CountDownLatch(1);
        PollingThread patient =
                new PollingThread(
                        host -> {
                            if (host.equals("plc.invalid")) {
                                awaitQuietly(never);
                            }
                            return InetAddress.getByName(host);
                        });
        ModbusTcp named =
                new ModbusTcp("plc", "plc.invalid", 502, POLL, Duration.ofMillis(100), LONG);
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource looking = new ModbusSource(named, inlet(), mine, patient);
                ModbusSource polled = source(device.port(), others, patient)) {
            looking.start();
            polled.start();

            await().until(() -> mine.losses().size() == 1);

            assertThat(mine.losses().get(0).reason())
                    .contains("plc.invalid:502", "not resolved within 100 ms")
                    .contains("check the spelling of the host");
            assertThat(others.readings(Channel.INLET)).hasSizeGreaterThan(ENOUGH / 2);
            assertThat(others.losses()).isEmpty();
        } finally {
            never.countDown();
        }
        await().until(() -> threads("leat-lookup-plc.invalid").isEmpty());
    }

    @Test
    void a_fault_of_ours_in_one_is_its_own_alone() throws Exception {
        Intake broken =
                new Intake() {
                    @Override
                    public boolean offer(String machine, Input input) {
                        throw new IllegalStateException("broken on purpose");
                    }

                    @Override
                    public long nowMicros() {
                        return mine.nowMicros();
                    }
                };
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource faulty = source(device.port(), broken, thread);
                ModbusSource polled = source(device.port(), others, thread)) {
            faulty.start();
            polled.start();

            await().until(() -> faulty.health().faults() >= ENOUGH);
            await().until(() -> others.readings(Channel.INLET).size() >= ENOUGH);

            assertThat(faulty.health().lastFault()).contains("broken on purpose");
            assertThat(polled.health().faults()).isZero();
            assertThat(others.losses()).isEmpty();
        }
    }

    @Test
    void how_late_one_is_counts_to_its_own_turn() {
        PollingThread slow = new PollingThread(host -> noAddressAfter(HELD));
        PollJitter first = new PollJitter();
        PollJitter second = new PollJitter();
        long longAgo = System.nanoTime() - LONG.toNanos();
        slow.begin(connection(slow, first), longAgo);
        slow.begin(connection(slow, second), longAgo);

        slow.takeTurns();

        assertThat(first.max().minus(second.max()).abs()).isGreaterThanOrEqualTo(HELD);
    }

    @Test
    void silence_counts_from_the_deadline_of_the_first_poll() {
        PollingThread nobody = new PollingThread(host -> noAddressAfter(Duration.ZERO));
        long longAgo = System.nanoTime() - LONG.toNanos();
        nobody.begin(connection(nobody, new PollJitter()), longAgo);

        nobody.takeTurns();

        assertThat(mine.losses()).hasSize(1);
        assertThat(mine.losses().get(0).reason()).contains("silent for 30.");
    }

    @Test
    void a_reply_that_lies_there_after_a_pause_of_ours_is_no_late_one() throws Exception {
        Duration timeout = Duration.ofMillis(500);
        CountDownLatch asked = new CountDownLatch(1);
        CountDownLatch paused = new CountDownLatch(1);
        CountDownLatch replied = new CountDownLatch(1);
        FakeDevice.Script inThePause =
                (number, request, out) -> {
                    if (number == 1) {
                        asked.countDown();
                        awaitQuietly(paused);
                    }
                    out.write(FakeDevice.echoOfAddresses(request));
                    if (number == 1) {
                        replied.countDown();
                    }
                };
        Intake pausing =
                new Meanwhile(
                        others,
                        () -> {
                            if (asked.getCount() == 0 && paused.getCount() == 1) {
                                paused.countDown();
                                awaitQuietly(replied);
                                hold(timeout);
                            }
                        });
        try (FakeDevice slow = new FakeDevice(inThePause);
                FakeDevice device = new FakeDevice(echo());
                ModbusSource waiting =
                        new ModbusSource(
                                Taps.connection(slow.port(), POLL, timeout),
                                inlet(),
                                mine,
                                thread);
                ModbusSource polled = source(device.port(), pausing, thread)) {
            waiting.start();
            polled.start();

            await().until(() -> mine.readings(Channel.INLET).size() >= 3);

            assertThat(waiting.health().faults()).isZero();
        }
    }

    @Test
    @Tag(Gear.THOROUGH)
    void closing_is_bounded_while_the_intake_never_returns() throws Exception {
        CountDownLatch entered = new CountDownLatch(1);
        AtomicBoolean stuck = new AtomicBoolean(true);
        Intake never =
                new Meanwhile(
                        mine,
                        () -> {
                            entered.countDown();
                            while (stuck.get()) {
                                LockSupport.parkNanos(HELD.toNanos());
                                Thread.interrupted();
                            }
                        });
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource source = source(device.port(), never, thread)) {
            source.start();
            entered.await();

            CompletableFuture<Void> closed = CompletableFuture.runAsync(source::close);

            try {
                assertThat(closed).succeedsWithin(Duration.ofSeconds(10));
            } finally {
                stuck.set(false);
            }
        }
        await().until(() -> pollingThreads().isEmpty());
    }

    @Test
    @Tag(Gear.THOROUGH)
    void a_source_that_is_closed_by_somebody_interrupted_leaves_no_connection() throws Exception {
        CountDownLatch inItsTurn = new CountDownLatch(1);
        CountDownLatch never = new CountDownLatch(1);
        AtomicInteger stamps = new AtomicInteger();
        Intake stuck =
                new Intake() {
                    @Override
                    public boolean offer(String machine, Input input) {
                        return mine.offer(machine, input);
                    }

                    /** Asked, answered, and asked again: that is in the second turn. */
                    @Override
                    public long nowMicros() {
                        if (stamps.incrementAndGet() == 3) {
                            inItsTurn.countDown();
                            awaitQuietly(never);
                        }
                        return mine.nowMicros();
                    }
                };
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
                ModbusSource source = source(server.getLocalPort(), stuck, thread)) {
            source.start();
            try (Socket device = server.accept()) {
                byte[] request = device.getInputStream().readNBytes(12);
                device.getOutputStream().write(FakeDevice.echoOfAddresses(request));
                inItsTurn.await();

                Thread.currentThread().interrupt();
                source.close();

                assertThat(Thread.interrupted()).as("the interrupt is kept").isTrue();
                device.setSoTimeout(5000);
                assertThat(device.getInputStream().readAllBytes())
                        .as("until it is closed, no more than the next request")
                        .hasSizeLessThanOrEqualTo(12);
            }
        }
    }

    /** Takes inputs, and does something before each. */
    private record Meanwhile(Intake intake, Runnable what) implements Intake {
        @Override
        public boolean offer(String machine, Input input) {
            what.run();
            return intake.offer(machine, input);
        }

        @Override
        public long nowMicros() {
            return intake.nowMicros();
        }
    }

    private PolledConnection connection(PollingThread on, PollJitter jitter) {
        return new PolledConnection(
                Taps.connection(502, POLL, LONG), inlet(), mine, on, new PollCounts(), jitter);
    }

    private static InetAddress noAddressAfter(Duration time) throws UnknownHostException {
        hold(time);
        throw new UnknownHostException("on purpose");
    }

    private static void hold(Duration time) {
        long until = System.nanoTime() + time.toNanos();
        while (until - System.nanoTime() > 0) {
            LockSupport.parkNanos(until - System.nanoTime());
        }
    }

    private static void stop(ModbusSource source) {
        source.close();
    }

    private static void awaitQuietly(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static List<String> pollingThreads() {
        return threads("leat-modbus");
    }

    private static List<String> threads(String name) {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(Thread::isAlive)
                .map(Thread::getName)
                .filter(other -> other.startsWith(name))
                .toList();
    }

    private static FakeDevice.Script echo() {
        return (number, request, out) -> out.write(FakeDevice.echoOfAddresses(request));
    }

    private static List<Tap> inlet() {
        return List.of(Taps.input(Channel.INLET, 3));
    }

    private static ModbusSource source(int port, Intake intake, PollingThread thread) {
        return new ModbusSource(Taps.connection(port, POLL, LONG), inlet(), intake, thread);
    }
}
