package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.awaitility.Awaitility.await;

import java.time.Duration;
import java.util.List;
import leat.acquire.RecordingIntake;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.interop.FieldDevice;
import leat.signal.Channel;
import leat.signal.Quality;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against a Modbus server that is not ours, nor of the library that we use: pymodbus. */
@Timeout(90)
class PymodbusInteropTest {

    private final RecordingIntake intake = new RecordingIntake();

    @BeforeAll
    static void require_the_peer() {
        FieldDevice.require();
    }

    @ParameterizedTest
    @CsvSource({"ABCD, 0", "CDAB, 2", "BADC, 4", "DCBA, 6"})
    void a_float_that_it_encoded_is_read_in_each_word_order(WordOrder order, int address)
            throws Exception {
        Register register =
                new Register(1, Table.INPUT_REGISTER, address, NumberType.FLOAT32, order);
        try (FieldDevice device = FieldDevice.start(0);
                ModbusSource source =
                        source(device, List.of(Taps.tap(Channel.INLET, register, Taps.PSI)))) {
            source.start();

            await().until(() -> !intake.readings(Channel.INLET).isEmpty());

            assertThat(intake.values(Channel.INLET).get(0)).isCloseTo(123.456, within(1e-5));
        }
    }

    @Test
    void integers_that_it_encoded_and_bits_are_read_from_every_table() throws Exception {
        List<Tap> taps =
                List.of(
                        holding(Channel.INLET, 0, NumberType.INT16),
                        holding(Channel.BOOSTED, 2, NumberType.INT32),
                        holding(Channel.FILTERED, 4, NumberType.UINT32),
                        Taps.contact(Channel.RUNNING, Table.COIL, 3),
                        Taps.contact(Channel.VALVE, Table.DISCRETE_INPUT, 3));
        try (FieldDevice device = FieldDevice.start(0);
                ModbusSource source = source(device, taps)) {
            source.start();

            await().until(() -> !intake.readings(Channel.FILTERED).isEmpty());

            assertThat(intake.values(Channel.INLET)).contains(-100.0);
            assertThat(intake.values(Channel.BOOSTED)).contains(-100_000.0);
            assertThat(intake.values(Channel.FILTERED)).contains(4e9);
            assertThat(intake.values(Channel.RUNNING)).contains(1.0);
            assertThat(intake.values(Channel.VALVE)).contains(0.0);
        }
    }

    @Test
    void a_register_that_it_does_not_have_is_refused_and_its_neighbour_is_read() throws Exception {
        List<Tap> taps =
                List.of(
                        holding(Channel.INLET, 1, NumberType.UINT16),
                        holding(Channel.BOOSTED, 9, NumberType.UINT16));
        try (FieldDevice device = FieldDevice.start(0);
                ModbusSource source = source(device, taps)) {
            source.start();

            await().until(() -> intake.readings(Channel.BOOSTED).size() >= 2);

            assertThat(intake.values(Channel.INLET)).contains(65436.0);
            assertThat(intake.qualities(Channel.BOOSTED)).containsOnly(Quality.DEVICE_REFUSED);
            assertThat(source.health().lastFault()).contains("illegal data address");
        }
    }

    @Test
    void killed_and_restarted_on_its_port_it_is_lost_once_and_back_once() throws Exception {
        FieldDevice first = FieldDevice.start(0);
        try (ModbusSource source =
                source(first, List.of(holding(Channel.INLET, 1, NumberType.UINT16)))) {
            source.start();
            await().until(() -> intake.readings(Channel.INLET).size() >= 3);

            first.kill();
            await().until(() -> intake.losses().size() == 1);
            try (FieldDevice second = FieldDevice.start(first.port())) {
                await().until(() -> intake.returns().size() == 1);
                int before = intake.readings(Channel.INLET).size();
                await().until(() -> intake.readings(Channel.INLET).size() > before);
                assertThat(second.port()).isEqualTo(first.port());
            }

            assertThat(intake.losses()).hasSize(1);
            assertThat(intake.values(Channel.INLET)).containsOnly(65436.0);
        } finally {
            first.close();
        }
    }

    private static Tap holding(Channel channel, int address, NumberType type) {
        return Taps.register(channel, 1, Table.HOLDING_REGISTER, address, type);
    }

    private ModbusSource source(FieldDevice device, List<Tap> taps) {
        return new ModbusSource(
                Taps.connection(device.port(), Duration.ofMillis(50), Duration.ofSeconds(5)),
                taps,
                intake,
                new PollingThread());
    }
}
