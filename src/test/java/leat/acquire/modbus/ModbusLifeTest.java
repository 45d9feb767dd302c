package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import leat.acquire.Intake;
import leat.acquire.RecordingIntake;
import leat.signal.Channel;
import leat.signal.Input;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A source ends when it is told to, and does not end when something breaks. */
@Timeout(60)
class ModbusLifeTest {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration LONG = Duration.ofSeconds(30);

    private final RecordingIntake intake = new RecordingIntake();

    @Test
    void closing_while_waiting_for_a_reply_is_quick_and_says_nothing() throws Exception {
        CountDownLatch asked = new CountDownLatch(1);
        try (FakeDevice device = new FakeDevice((number, request, out) -> asked.countDown());
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(device.port(), POLL, LONG),
                                inlet(),
                                intake,
                                new PollingThread())) {
            source.start();
            asked.await();

            long nanos = nanosToClose(source);

            assertThat(nanos).as("not waited out").isLessThan(LONG.toNanos() / 2);
            assertThat(intake.all()).isEmpty();
            assertThat(source.health().faults()).isZero();
        }
    }

    @Test
    void closing_while_connecting_into_a_black_hole_is_quick() throws Exception {
        List<Socket> fillers = new ArrayList<>();
        try (ServerSocket hole = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            fillTheQueueOf(hole, fillers);
            ModbusSource source =
                    new ModbusSource(
                            Taps.connection(hole.getLocalPort(), POLL, LONG),
                            inlet(),
                            intake,
                            new PollingThread());
            source.start();
            await().until(() -> source.jitter().polls() == 1);

            long nanos = nanosToClose(source);

            assertThat(nanos).as("not waited out").isLessThan(LONG.toNanos() / 2);
            assertThat(pollingThreads()).isEmpty();
        } finally {
            for (Socket filler : fillers) {
                filler.close();
            }
        }
    }

    @Test
    void a_fault_of_ours_is_counted_and_the_polling_goes_on() throws Exception {
        AtomicInteger offers = new AtomicInteger();
        Intake broken =
                new Intake() {
                    @Override
                    public boolean offer(String machine, Input input) {
                        if (offers.incrementAndGet() == 2) {
                            throw new IllegalStateException("broken on purpose");
                        }
                        return intake.offer(machine, input);
                    }

                    @Override
                    public long nowMicros() {
                        return intake.nowMicros();
                    }
                };
        try (FakeDevice device =
                        new FakeDevice(
                                (number, request, out) ->
                                        out.write(FakeDevice.echoOfAddresses(request)));
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(device.port(), POLL, LONG),
                                inlet(),
                                broken,
                                new PollingThread())) {
            source.start();

            await().until(() -> intake.readings(Channel.INLET).size() >= 5);

            assertThat(source.health().faults()).isEqualTo(1);
            assertThat(source.health().lastFault()).contains("broken on purpose");
        }
    }

    /** Without accept, a Linux queue of one holds two; then connecting takes for ever. */
    private static void fillTheQueueOf(ServerSocket hole, List<Socket> fillers) throws IOException {
        for (int i = 0; i < 8; i++) {
            Socket filler = new Socket();
            fillers.add(filler);
            try {
                filler.connect(
                        new InetSocketAddress(
                                InetAddress.getLoopbackAddress(), hole.getLocalPort()),
                        200);
            } catch (IOException full) {
                return;
            }
        }
        throw new IOException("the queue does not fill up");
    }

    private static List<String> pollingThreads() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(Thread::isAlive)
                .map(Thread::getName)
                .filter("leat-modbus"::equals)
                .toList();
    }

    private static long nanosToClose(ModbusSource source) {
        long start = System.nanoTime();
        source.close();
        return System.nanoTime() - start;
    }

    private static List<Tap> inlet() {
        return List.of(Taps.input(Channel.INLET, 3));
    }
}
