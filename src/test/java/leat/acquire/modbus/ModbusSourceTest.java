package leat.acquire.modbus;

import static java.util.stream.Collectors.toSet;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.awaitility.Awaitility.await;

import java.time.Duration;
import java.util.List;
import java.util.Set;
import leat.acquire.RecordingIntake;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceLost;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What a source does with a device that answers. */
@Timeout(60)
class ModbusSourceTest {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration PATIENT = Duration.ofSeconds(5);

    private final RecordingIntake intake = new RecordingIntake();

    @Test
    void neighbouring_channels_come_from_one_request_under_one_stamp() throws Exception {
        List<Tap> taps = List.of(Taps.input(Channel.INLET, 3), Taps.input(Channel.BOOSTED, 5));
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource source = source(device.port(), taps)) {
            long before = intake.nowMicros();
            source.start();

            await().until(() -> intake.readings(Channel.BOOSTED).size() >= 5);
            stop(source);

            assertThat(intake.values(Channel.INLET)).containsOnly(3.0);
            assertThat(intake.values(Channel.BOOSTED)).containsOnly(5.0);
            assertThat(stamps(Channel.INLET)).containsAll(stamps(Channel.BOOSTED));
            assertThat(stamps(Channel.INLET))
                    .isSorted()
                    .doesNotHaveDuplicates()
                    .allSatisfy(at -> assertThat(at).isBetween(before, intake.nowMicros()));
            assertThat(device.requests()).allSatisfy(r -> assertThat(r[11]).isEqualTo((byte) 3));
            assertThat(device.connections()).isEqualTo(1);
            assertThat(source.health().connected()).isTrue();
            assertThat(source.health().readings()).isEqualTo(intake.all().size());
            assertThat(source.health().lastFault()).isEmpty();
        }
    }

    @Test
    void a_stamp_lies_in_the_middle_between_request_and_reply() throws Exception {
        Duration answer = Duration.ofMillis(300);
        FakeDevice.Script slow =
                (number, request, out) -> {
                    await().pollDelay(answer).until(() -> true);
                    out.write(FakeDevice.echoOfAddresses(request));
                };
        try (FakeDevice device = new FakeDevice(slow);
                ModbusSource source = source(device.port(), inlet())) {
            source.start();

            await().until(() -> !intake.readings(Channel.INLET).isEmpty());

            long age = intake.nowMicros() - intake.readings(Channel.INLET).get(0).atMicros();
            assertThat(age).isGreaterThanOrEqualTo(answer.toNanos() / 1000 / 2);
        }
    }

    @Test
    void all_four_tables_are_read_from_the_librarys_own_slave() throws Exception {
        List<Tap> taps =
                List.of(
                        Taps.input(Channel.INLET, 7),
                        Taps.register(
                                Channel.BOOSTED, 1, Table.HOLDING_REGISTER, 7, NumberType.INT16),
                        Taps.contact(Channel.RUNNING, Table.COIL, 4),
                        Taps.contact(Channel.VALVE, Table.DISCRETE_INPUT, 5));
        try (LibrarySlave slave = new LibrarySlave(LibrarySlave.freePort());
                ModbusSource source = source(slave.port(), taps)) {
            source.start();

            await().until(() -> !intake.readings(Channel.INLET).isEmpty());

            assertThat(intake.values(Channel.INLET)).contains(7.0);
            assertThat(intake.values(Channel.BOOSTED)).contains(107.0);
            assertThat(intake.values(Channel.RUNNING)).contains(1.0);
            assertThat(intake.values(Channel.VALVE)).contains(0.0);
        }
    }

    @Test
    void an_exception_reply_gives_bad_readings_and_keeps_the_connection() throws Exception {
        FakeDevice.Script failing =
                (number, request, out) ->
                        out.write(
                                number < 5
                                        ? FakeDevice.exception(request, 4)
                                        : FakeDevice.echoOfAddresses(request));
        try (FakeDevice device = new FakeDevice(failing);
                ModbusSource source = source(device.port(), inlet())) {
            source.start();

            await().until(() -> intake.values(Channel.INLET).size() >= 2);

            assertThat(intake.qualities(Channel.INLET).subList(0, 6))
                    .containsExactly(
                            Quality.DEVICE_REFUSED,
                            Quality.DEVICE_REFUSED,
                            Quality.DEVICE_REFUSED,
                            Quality.DEVICE_REFUSED,
                            Quality.DEVICE_REFUSED,
                            Quality.GOOD);
            assertThat(device.connections()).isEqualTo(1);
            assertThat(source.health().faults()).isEqualTo(5);
            assertThat(source.health().connected()).isTrue();
            assertThat(intake.losses()).isEmpty();
        }
    }

    @Test
    void a_silent_device_behind_a_gateway_is_named_in_words() throws Exception {
        FakeDevice.Script gateway =
                (number, request, out) -> out.write(FakeDevice.exception(request, 11));
        try (FakeDevice device = new FakeDevice(gateway);
                ModbusSource source = source(device.port(), inlet())) {
            source.start();

            await().until(() -> !intake.readings(Channel.INLET).isEmpty());

            assertThat(source.health().lastFault())
                    .contains("127.0.0.1:" + device.port(), "unit 1", "input register 3")
                    .contains("the device behind the gateway is silent");
        }
    }

    @Test
    void a_block_with_a_hole_is_read_channel_by_channel_from_then_on() throws Exception {
        FakeDevice.Script withHole =
                (number, request, out) -> {
                    int address = FakeDevice.word(request, 8);
                    boolean overHole = address <= 4 && address + request[11] > 4;
                    out.write(
                            overHole
                                    ? FakeDevice.exception(request, 2)
                                    : FakeDevice.echoOfAddresses(request));
                };
        List<Tap> taps = List.of(Taps.input(Channel.INLET, 3), Taps.input(Channel.BOOSTED, 5));
        try (FakeDevice device = new FakeDevice(withHole);
                ModbusSource source = source(device.port(), taps)) {
            source.start();

            await().until(() -> intake.readings(Channel.BOOSTED).size() >= 3);
            stop(source);

            assertThat(intake.qualities(Channel.INLET)).containsOnly(Quality.GOOD);
            assertThat(intake.values(Channel.INLET)).containsOnly(3.0);
            assertThat(intake.values(Channel.BOOSTED)).containsOnly(5.0);
            assertThat(source.health().faults()).isEqualTo(1);
            assertThat(device.requests()).filteredOn(r -> r[11] > 1).hasSize(1);
            assertThat(device.connections()).isEqualTo(1);
        }
    }

    @Test
    void what_the_intake_cannot_take_is_counted_as_missed() throws Exception {
        intake.beFull(true);
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource source = source(device.port(), inlet())) {
            source.start();
            await().until(() -> source.health().missed() >= 3);
            assertThat(source.health().readings()).isZero();

            intake.beFull(false);

            await().until(() -> source.health().readings() >= 3);
        }
    }

    @Test
    void polls_that_a_slow_reply_overruns_are_counted_and_not_made_up_for() throws Exception {
        FakeDevice.Script slowOnce =
                (number, request, out) -> {
                    if (number == 3) {
                        await().pollDelay(Duration.ofMillis(210)).until(() -> true);
                    }
                    out.write(FakeDevice.echoOfAddresses(request));
                };
        try (FakeDevice device = new FakeDevice(slowOnce);
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(device.port(), Duration.ofMillis(50), PATIENT),
                                inlet(),
                                intake,
                                new PollingThread())) {
            source.start();

            await().until(() -> intake.readings(Channel.INLET).size() >= 20);
            stop(source);

            List<Long> at = stamps(Channel.INLET);
            assertThat(source.health().missed()).isGreaterThanOrEqualTo(3);
            long periods = source.jitter().polls() - 1 + source.health().missed();
            long span = at.get(at.size() - 1) - at.get(0);
            assertThat(span / 50_000.0).isCloseTo(periods, within(2.0));
            assertThat(intake.losses()).isEmpty();
        }
    }

    @Test
    void a_silent_unit_does_not_slow_down_the_other_behind_the_same_gateway() throws Exception {
        FakeDevice.Script unit2IsOff =
                (number, request, out) -> {
                    if (request[6] != 2) {
                        out.write(FakeDevice.echoOfAddresses(request));
                    }
                };
        List<Tap> taps =
                List.of(
                        Taps.input(Channel.INLET, 3),
                        Taps.register(
                                Channel.BOOSTED, 2, Table.INPUT_REGISTER, 0, NumberType.UINT16));
        try (FakeDevice device = new FakeDevice(unit2IsOff);
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(device.port(), POLL, Duration.ofMillis(200)),
                                taps,
                                intake,
                                new PollingThread())) {
            source.start();

            await().until(() -> intake.losses().size() == 1);
            int then = intake.readings(Channel.INLET).size();

            assertThat(intake.losses()).extracting(SourceLost::channel).contains(Channel.BOOSTED);
            assertThat(intake.losses().get(0).reason())
                    .contains("unit 2, input register 0", "check the unit id");
            assertThat(then).isGreaterThan(10);
            assertThat(device.requests()).filteredOn(r -> r[6] == 2).hasSizeLessThan(6);
        }
    }

    @Test
    void unit_255_is_a_unit_like_any_other() throws Exception {
        List<Tap> taps =
                List.of(
                        Taps.register(
                                Channel.INLET, 255, Table.INPUT_REGISTER, 9, NumberType.UINT16));
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource source = source(device.port(), taps)) {
            source.start();

            await().until(() -> intake.values(Channel.INLET).contains(9.0));
        }
    }

    @Test
    void a_source_starts_once_and_closing_twice_does_no_harm() throws Exception {
        try (FakeDevice device = new FakeDevice(echo());
                ModbusSource source = source(device.port(), inlet())) {
            source.start();
            await().until(() -> !intake.all().isEmpty());
            assertThatThrownBy(source::start).isInstanceOf(IllegalStateException.class);

            stop(source);
            stop(source);

            assertThat(pollingThreads()).isEmpty();
            assertThatThrownBy(source::start).isInstanceOf(IllegalStateException.class);
        }
    }

    private static void stop(ModbusSource source) {
        source.close();
    }

    private static Set<String> pollingThreads() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(Thread::isAlive)
                .map(Thread::getName)
                .filter("leat-modbus"::equals)
                .collect(toSet());
    }

    private List<Long> stamps(Channel channel) {
        return intake.readings(channel).stream().map(Reading::atMicros).toList();
    }

    private static FakeDevice.Script echo() {
        return (number, request, out) -> out.write(FakeDevice.echoOfAddresses(request));
    }

    private static List<Tap> inlet() {
        return List.of(Taps.input(Channel.INLET, 3));
    }

    private ModbusSource source(int port, List<Tap> taps) {
        return new ModbusSource(
                Taps.connection(port, POLL, PATIENT), taps, intake, new PollingThread());
    }
}
