package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import leat.acquire.Intake;
import leat.config.ConnectionSettings.ModbusTcp;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a source makes of devices and networks that fail, on real sockets. */
@Timeout(60)
class ModbusFaultsTest {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration TIMEOUT = Duration.ofMillis(150);
    private static final Duration LONG = Duration.ofSeconds(30);

    private final RecordingIntake intake = new RecordingIntake();

    @BeforeAll
    static void look_often() {
        Awaitility.setDefaultPollInterval(Duration.ofMillis(5));
    }

    @Test
    void after_a_late_reply_no_reading_carries_another_registers_value() throws Exception {
        FakeDevice.Script lateOnce =
                (number, request, out) -> {
                    if (number == 4) {
                        await().pollDelay(TIMEOUT.plusMillis(50)).until(() -> true);
                    }
                    out.write(FakeDevice.echoOfAddresses(request));
                };
        List<Tap> farApart =
                List.of(
                        Taps.input(Channel.INLET, 40),
                        Taps.input(Channel.BOOSTED, 80),
                        Taps.input(Channel.FILTERED, 120));
        try (FakeDevice device = new FakeDevice(lateOnce);
                ModbusSource source = source(device.port(), farApart)) {
            source.start();

            await().until(() -> intake.readings(Channel.FILTERED).size() >= 20);

            assertThat(intake.values(Channel.INLET)).containsOnly(40.0);
            assertThat(intake.values(Channel.BOOSTED)).containsOnly(80.0);
            assertThat(intake.values(Channel.FILTERED)).containsOnly(120.0);
            assertThat(source.health().faults()).isEqualTo(1);
            assertThat(device.connections()).isEqualTo(2);
            assertThat(intake.losses()).isEmpty();
        }
    }

    @Test
    void a_peer_that_accepts_and_never_answers_is_lost_once_and_tried_ever_less_often()
            throws Exception {
        try (FakeDevice device = new FakeDevice((number, request, out) -> {});
                ModbusSource source = source(device.port(), inlet())) {
            source.start();

            await().until(() -> device.connections() >= 5);

            assertThat(intake.losses()).hasSize(1);
            assertThat(intake.losses().get(0).reason())
                    .contains("127.0.0.1:" + device.port(), "unit 1", "input register 3")
                    .contains("no whole reply within 150 ms", "check the unit id");
            assertThat(intake.readings(Channel.INLET)).isEmpty();
            assertThat(source.health().connected()).isFalse();
        }
    }

    /** Ways to answer wrongly; none of them may become a reading. */
    enum Nonsense {
        ENDS_IN_MID_REPLY {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                out.write(good, 0, 9);
                out.close();
            }
        },
        OTHER_UNIT {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[6]++;
                out.write(good);
            }
        },
        OTHER_TRANSACTION {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[1]--;
                out.write(good);
            }
        },
        OTHER_PROTOCOL {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[3] = 1;
                out.write(good);
            }
        },
        OTHER_FUNCTION {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[7] = 3;
                out.write(good);
            }
        },
        EXCEPTION_TO_ANOTHER_FUNCTION {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                byte[] refusal = FakeDevice.exception(good, 2);
                refusal[7] = (byte) 0x83;
                out.write(refusal);
            }
        },
        ONE_REGISTER_OF_TWO {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[5] = 5;
                good[8] = 2;
                out.write(good, 0, 11);
            }
        },
        LENGTH_THAT_ENDS_BEFORE_THE_DATA {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[5] = 5;
                out.write(good, 0, 11);
            }
        },
        ONE_REGISTER_TOO_MANY {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                byte[] longer = Arrays.copyOf(good, good.length + 2);
                longer[5] = 9;
                longer[8] = 6;
                out.write(longer);
            }
        },
        NEGATIVE_LENGTH {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[4] = (byte) 0xff;
                out.write(good);
            }
        },
        ANOTHER_PROTOCOL_ALTOGETHER {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                out.write(
                        "HTTP/1.1 400 Bad Request\r\nConnection: close\r\n\r\n"
                                .getBytes(StandardCharsets.US_ASCII));
            }
        };

        abstract void answer(byte[] good, OutputStream out) throws IOException;
    }

    @ParameterizedTest
    @EnumSource
    void nonsense_becomes_a_fault_and_the_next_good_reply_a_reading(Nonsense nonsense)
            throws Exception {
        FakeDevice.Script wrongTwice =
                (number, request, out) -> {
                    byte[] good = FakeDevice.echoOfAddresses(request);
                    if (number == 1 || number == 3) {
                        nonsense.answer(good, out);
                    } else {
                        out.write(good);
                    }
                };
        try (FakeDevice device = new FakeDevice(wrongTwice);
                ModbusSource source = source(device.port(), twoNeighbours())) {
            source.start();

            await().until(() -> intake.readings(Channel.BOOSTED).size() >= 8);

            assertThat(intake.values(Channel.INLET)).containsOnly(3.0);
            assertThat(intake.values(Channel.BOOSTED)).containsOnly(4.0);
            assertThat(intake.readings(Channel.INLET)).allMatch(r -> r.quality().isUsable());
            assertThat(source.health().faults()).isEqualTo(2);
            assertThat(device.connections()).isEqualTo(3);
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13})
    void any_garbage_is_a_fault_and_no_reading(long seed) throws Exception {
        Random random = new Random(seed);
        FakeDevice.Script garbage =
                (number, request, out) -> {
                    byte[] bytes = new byte[1 + random.nextInt(300)];
                    random.nextBytes(bytes);
                    out.write(bytes);
                };
        try (FakeDevice device = new FakeDevice(garbage);
                ModbusSource source = source(device.port(), twoNeighbours())) {
            source.start();

            await().until(() -> source.health().faults() >= 4);

            assertThat(intake.readings(Channel.INLET)).as("seed %d", seed).isEmpty();
            assertThat(source.health().lastFault()).doesNotContain("fault in leat");
        }
    }

    @Test
    void a_reply_that_trickles_in_does_not_hold_a_poll_beyond_the_time_out() throws Exception {
        FakeDevice.Script trickling =
                (number, request, out) -> {
                    for (byte one : FakeDevice.echoOfAddresses(request)) {
                        await().pollDelay(Duration.ofMillis(60)).until(() -> true);
                        out.write(one);
                    }
                };
        try (FakeDevice device = new FakeDevice(trickling);
                ModbusSource source = source(device.port(), inlet())) {
            source.start();

            await().until(() -> source.health().faults() >= 1);

            assertThat(source.health().lastFault()).contains("no whole reply within 150 ms");
            assertThat(device.requests()).hasSizeLessThanOrEqualTo(2);
            assertThat(intake.readings(Channel.INLET)).isEmpty();
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
        var settings = new ModbusTcp("plc", "no such host", 502, POLL, TIMEOUT, TIMEOUT);
        try (ModbusSource source = new ModbusSource(settings, inlet(), intake)) {
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
        AtomicInteger silences = new AtomicInteger(3);
        FakeDevice.Script silentThreeTimes =
                (number, request, out) -> {
                    if (number < 2 || silences.getAndDecrement() <= 0) {
                        out.write(FakeDevice.echoOfAddresses(request));
                    }
                };
        try (FakeDevice device = new FakeDevice(silentThreeTimes);
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(device.port(), POLL, Duration.ofMillis(50)),
                                inlet(),
                                intake)) {
            source.start();

            await().until(() -> intake.readings(Channel.INLET).size() >= 10);

            assertThat(source.health().faults()).isEqualTo(3);
            assertThat(intake.losses()).isEmpty();
            assertThat(intake.returns()).isEmpty();
        }
    }

    @Test
    void closing_while_waiting_for_a_reply_is_quick_and_says_nothing() throws Exception {
        CountDownLatch asked = new CountDownLatch(1);
        try (FakeDevice device = new FakeDevice((number, request, out) -> asked.countDown());
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(device.port(), POLL, LONG), inlet(), intake)) {
            source.start();
            asked.await();

            long nanos = nanosToClose(source);

            assertThat(nanos).isLessThan(Duration.ofSeconds(1).toNanos());
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
                            Taps.connection(hole.getLocalPort(), POLL, LONG), inlet(), intake);
            source.start();
            await().until(() -> connecting());

            long nanos = nanosToClose(source);

            assertThat(nanos).isLessThan(Duration.ofSeconds(1).toNanos());
            assertThat(connecting()).isFalse();
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
                                Taps.connection(device.port(), POLL, LONG), inlet(), broken)) {
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

    private static boolean connecting() {
        return Thread.getAllStackTraces().entrySet().stream()
                .filter(thread -> thread.getKey().getName().equals("modbus-plc"))
                .flatMap(thread -> Arrays.stream(thread.getValue()))
                .anyMatch(frame -> frame.getMethodName().equals("connect"));
    }

    private static long nanosToClose(ModbusSource source) {
        long start = System.nanoTime();
        source.close();
        return System.nanoTime() - start;
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
        return new ModbusSource(Taps.connection(port, POLL, TIMEOUT), taps, intake);
    }
}
