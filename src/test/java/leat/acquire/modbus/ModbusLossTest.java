package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.time.Duration;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import leat.Gear;
import leat.acquire.RecordingIntake;
import leat.config.ConnectionSettings.ModbusTcp;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Devices that go away and come back: a loss is said once, and so is its end. */
@Timeout(60)
class ModbusLossTest {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration TIMEOUT = Duration.ofMillis(400);

    private final RecordingIntake intake = new RecordingIntake();

    @Test
    void a_peer_that_accepts_and_never_answers_is_lost_once_and_tried_ever_less_often()
            throws Exception {
        try (FakeDevice device = new FakeDevice((number, request, out) -> {});
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(device.port(), POLL, Duration.ofMillis(100)),
                                inlet(),
                                intake,
                                new PollingThread())) {
            source.start();

            await().until(() -> intake.losses().size() == 1);
            int tries = device.connections();
            await().until(() -> device.connections() >= tries + Gear.of(1, 3));

            assertThat(intake.losses()).hasSize(1);
            assertThat(intake.losses().get(0).reason())
                    .contains("127.0.0.1:" + device.port(), "unit 1", "input register 3")
                    .contains("no whole reply within 100 ms", "check the unit id");
            assertThat(intake.readings(Channel.INLET)).isEmpty();
            assertThat(source.health().connected()).isFalse();
        }
    }

    @Test
    void a_device_that_hangs_up_between_polls_costs_no_reading() throws Exception {
        FakeDevice.Script hangingUp =
                (number, request, out) -> {
                    out.write(FakeDevice.echoOfAddresses(request));
                    out.close();
                };
        try (FakeDevice device = new FakeDevice(hangingUp);
                ModbusSource source = source(device.port(), inlet())) {
            source.start();

            await().until(() -> intake.readings(Channel.INLET).size() >= 10);

            assertThat(source.jitter().polls())
                    .isBetween(10L, intake.readings(Channel.INLET).size() + 1L);
            assertThat(intake.losses()).isEmpty();
        }
    }

    @Test
    void a_device_that_has_hung_up_is_not_connected_before_the_next_poll_finds_out()
            throws Exception {
        CountDownLatch polled = new CountDownLatch(1);
        FakeDevice.Script hangingUp =
                (number, request, out) -> {
                    out.write(FakeDevice.echoOfAddresses(request));
                    awaitQuietly(polled);
                    out.close();
                };
        try (FakeDevice device = new FakeDevice(hangingUp);
                PolledByHand source =
                        new PolledByHand(
                                Taps.connection(device.port(), POLL, TIMEOUT), inlet(), intake)) {
            source.poll();
            assertThat(source.isConnected()).isTrue();

            polled.countDown();
            source.look();

            assertThat(source.isConnected()).isFalse();
        }
    }

    private static void awaitQuietly(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Test
    void a_refused_port_is_a_loss_with_what_to_check() throws Exception {
        int port = LibrarySlave.freePort();
        try (ModbusSource source = source(port, twoNeighbours())) {
            source.start();

            await().until(() -> intake.losses().size() == 2);

            assertThat(intake.losses())
                    .extracting(SourceLost::channel)
                    .containsExactly(Channel.INLET, Channel.BOOSTED);
            assertThat(intake.losses().get(1).reason())
                    .contains("127.0.0.1:" + port, "unit 1", "input register 4")
                    .contains("connection refused", "check the port");
            assertThat(intake.all()).hasSize(2);
        }
    }

    @Test
    void a_host_that_has_no_address_is_a_loss_with_what_to_check() {
        var settings = new ModbusTcp("plc", "[no-address]", 502, POLL, TIMEOUT, TIMEOUT);
        try (ModbusSource source =
                new ModbusSource(settings, inlet(), intake, new PollingThread())) {
            source.start();

            await().until(() -> intake.losses().size() == 1);

            assertThat(intake.losses().get(0).reason()).contains("check the spelling of the host");
        }
    }

    @Test
    void a_device_killed_and_restarted_on_its_port_is_lost_once_and_back_once() throws Exception {
        int port = LibrarySlave.freePort();
        try (ModbusSource source = source(port, twoNeighbours())) {
            LibrarySlave first = new LibrarySlave(port);
            source.start();
            await().until(() -> intake.readings(Channel.BOOSTED).size() >= 3);

            first.close();
            await().until(() -> intake.losses().size() == 2);
            try (LibrarySlave second = new LibrarySlave(port)) {
                await().until(() -> intake.returns().size() == 2);
                assertThat(second.port()).isEqualTo(port);
                await().until(() -> source.health().connected());
            }

            assertThat(order(Channel.INLET))
                    .containsSubsequence("Reading", "SourceLost", "SourceBack", "Reading");
            assertThat(intake.losses()).hasSize(2);
            assertThat(intake.returns())
                    .extracting(SourceBack::channel)
                    .containsExactly(Channel.INLET, Channel.BOOSTED);
            assertThat(intake.values(Channel.INLET)).containsOnly(3.0);
        }
    }

    @Test
    void a_loss_that_the_intake_cannot_take_is_said_as_soon_as_it_can() throws Exception {
        int port = LibrarySlave.freePort();
        intake.beFull(true);
        try (ModbusSource source = source(port, inlet())) {
            source.start();
            await().until(() -> source.health().missed() >= 2);

            intake.beFull(false);

            await().until(() -> intake.losses().size() == 1);
        }
    }

    @Test
    void a_return_that_the_intake_cannot_take_is_said_before_the_first_reading_it_can()
            throws Exception {
        AtomicBoolean silent = new AtomicBoolean(true);
        FakeDevice.Script script =
                (number, request, out) -> {
                    if (!silent.get()) {
                        out.write(FakeDevice.echoOfAddresses(request));
                    }
                };
        try (FakeDevice device = new FakeDevice(script);
                ModbusSource source = source(device.port(), inlet())) {
            source.start();
            await().until(() -> intake.losses().size() == 1);
            intake.beFull(true);
            silent.set(false);
            await().until(() -> source.health().connected());
            await().until(() -> source.health().missed() > 0);

            intake.beFull(false);
            await().until(() -> !intake.readings(Channel.INLET).isEmpty());

            assertThat(order(Channel.INLET).subList(0, 3))
                    .containsExactly("SourceLost", "SourceBack", "Reading");
        }
    }

    @Test
    void a_gap_shorter_than_the_bound_is_no_loss() throws Exception {
        AtomicInteger silences = new AtomicInteger(2);
        FakeDevice.Script silentTwice =
                (number, request, out) -> {
                    if (number < 2 || silences.getAndDecrement() <= 0) {
                        out.write(FakeDevice.echoOfAddresses(request));
                    }
                };
        try (FakeDevice device = new FakeDevice(silentTwice);
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(device.port(), POLL, Duration.ofMillis(50)),
                                inlet(),
                                intake,
                                new PollingThread())) {
            source.start();

            await().until(() -> intake.readings(Channel.INLET).size() >= 10);

            assertThat(source.health().faults()).isGreaterThanOrEqualTo(2);
            assertThat(intake.losses()).isEmpty();
            assertThat(intake.returns()).isEmpty();
        }
    }

    private List<String> order(Channel channel) {
        return intake.all().stream()
                .map(RecordingIntake.Offered::input)
                .filter(input -> channelOf(input) == channel)
                .map(input -> input.getClass().getSimpleName())
                .toList();
    }

    private static Channel channelOf(Input input) {
        if (input instanceof Reading reading) {
            return reading.channel();
        }
        if (input instanceof SourceLost lost) {
            return lost.channel();
        }
        return ((SourceBack) input).channel();
    }

    private static List<Tap> inlet() {
        return List.of(Taps.input(Channel.INLET, 3));
    }

    private static List<Tap> twoNeighbours() {
        return List.of(
                Taps.input(Channel.INLET, 3),
                Taps.register(Channel.BOOSTED, 1, Table.INPUT_REGISTER, 4, NumberType.UINT16));
    }

    private ModbusSource source(int port, List<Tap> taps) {
        return new ModbusSource(
                Taps.connection(port, POLL, TIMEOUT), taps, intake, new PollingThread());
    }
}
