package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.net.InetAddress;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import leat.Gear;
import leat.acquire.Intake;
import leat.acquire.RecordingIntake;
import leat.config.ConnectionSettings.ModbusTcp;
import leat.signal.Channel;
import leat.signal.Input;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Connections that share one thread: what one of them meets, the others do not feel. */
@Timeout(60)
class PollingThreadTest {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration LONG = Duration.ofSeconds(30);
    private static final int ENOUGH = 20;

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
