package leat.bench.panel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import com.ghgande.j2mod.modbus.procimg.InputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.util.BitVector;
import java.io.IOException;
import java.io.InputStream;
import java.net.BindException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicBoolean;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class ModbusPanelTest {

    private static final Instant NOW = Instant.parse("2026-01-05T06:00:00Z");

    private ModbusPanel panel;
    private final List<ModbusTCPMaster> masters = new ArrayList<>();

    @BeforeEach
    void start() throws IOException {
        panel = new ModbusPanel("cabinet-1", 0, List.of("jet-1", "jet-2"), 2);
        panel.show(
                NOW,
                List.of(
                        Samples.of(0, "jet-1", 42, 100, true),
                        Samples.of(0, "jet-2", 30, 0, false)));
    }

    @AfterEach
    void end() {
        masters.forEach(ModbusTCPMaster::disconnect);
        panel.close();
    }

    private ModbusTCPMaster master() throws Exception {
        ModbusTCPMaster master = new ModbusTCPMaster("127.0.0.1", panel.port(), 1000, false);
        master.setRetries(1);
        master.connect();
        masters.add(master);
        return master;
    }

    private static double psi(InputRegister[] words) {
        return ByteBuffer.allocate(4).put(words[0].toBytes()).put(words[1].toBytes()).getFloat(0);
    }

    @Test
    void each_machine_is_a_unit_with_its_counts_from_address_0() throws Exception {
        InputRegister[] jet1 = master().readInputRegisters(1, 0, 3);
        InputRegister[] jet2 = master().readInputRegisters(2, 0, 3);

        assertThat(jet1[0].getValue()).isEqualTo(Samples.counts(42));
        assertThat(jet1[1].getValue()).isEqualTo(Samples.counts(100));
        assertThat(jet1[2].getValue()).isEqualTo(Samples.counts(98));
        assertThat(jet2[1].getValue()).isEqualTo(Samples.counts(0));
    }

    @Test
    void psi_stands_as_float_high_word_first_from_address_10() throws Exception {
        assertThat(psi(master().readInputRegisters(1, 10, 2))).isCloseTo(42, within(0.04));
        assertThat(psi(masters.get(0).readInputRegisters(1, 12, 2))).isCloseTo(100, within(0.04));
    }

    @Test
    void holding_registers_and_coils_mirror_the_inputs() throws Exception {
        ModbusTCPMaster master = master();

        BitVector inputs = master.readInputDiscretes(1, 0, 3);
        BitVector coils = master.readCoils(1, 0, 3);

        assertThat(inputs.getBit(0)).isTrue();
        assertThat(inputs.getBit(1)).isTrue();
        assertThat(inputs.getBit(2)).isTrue();
        assertThat(coils.getBit(0)).isTrue();
        assertThat(coils.getBit(2)).isTrue();
        assertThat(master.readInputDiscretes(2, 0, 1).getBit(0)).isFalse();
        assertThat(master.readMultipleRegisters(1, 1, 1)[0].getValue())
                .isEqualTo(Samples.counts(100));
    }

    @Test
    void broken_loop_is_no_counts_and_minus_50_psi() throws Exception {
        panel.show(NOW, List.of(Samples.of(1, "jet-1", 42, -50, true)));

        ModbusTCPMaster master = master();

        assertThat(master.readInputRegisters(1, 1, 1)[0].getValue()).isZero();
        assertThat(psi(master.readInputRegisters(1, 12, 2))).isEqualTo(-50);
    }

    @Test
    void machines_of_other_panels_are_ignored() throws Exception {
        panel.show(NOW, List.of(Samples.of(1, "jet-9", 1, 1, true)));

        assertThat(master().readInputRegisters(1, 0, 1)[0].getValue())
                .isEqualTo(Samples.counts(42));
    }

    /** Modbus Application Protocol Specification V1.1b3, section 7: exception codes 01, 02, 0B. */
    @Test
    void what_is_not_there_is_answered_by_an_exception_and_the_connection_lives_on()
            throws Exception {
        ModbusTCPMaster master = master();

        assertThat(code(() -> master.readInputRegisters(1, 16, 1))).isEqualTo(0x02);
        assertThat(code(() -> master.readInputRegisters(1, 15, 2))).isEqualTo(0x02);
        assertThat(code(() -> master.readInputDiscretes(1, 3, 1))).isEqualTo(0x02);
        assertThat(code(() -> master.readInputRegisters(3, 0, 1))).isEqualTo(0x0B);
        assertThat(code(() -> master.writeSingleRegister(1, 0, new SimpleRegister(7))))
                .isEqualTo(0x01);
        assertThat(code(() -> master.writeCoil(1, 0, false))).isEqualTo(0x01);
        assertThat(master.readInputRegisters(1, 0, 1)[0].getValue()).isEqualTo(Samples.counts(42));
    }

    private interface Request {
        void send() throws ModbusException;
    }

    private static int code(Request request) {
        ModbusSlaveException refused =
                catchThrowableOfType(ModbusSlaveException.class, request::send);
        return refused.getType();
    }

    @Test
    void the_words_of_one_answer_belong_to_one_sample() throws Exception {
        ModbusTCPMaster master = master();
        panel.show(NOW, List.of(Samples.of(0, "jet-1", 20, 20, true)));
        AtomicBoolean stop = new AtomicBoolean();
        Thread showing =
                new Thread(
                        () -> {
                            for (int i = 0; !stop.get(); i++) {
                                double psi = i % 2 == 0 ? 20 : 170;
                                panel.show(NOW, List.of(Samples.of(i, "jet-1", psi, psi, true)));
                            }
                        });
        showing.start();

        List<InputRegister[]> read = new ArrayList<>();
        for (int i = 0; i < 2000; i++) {
            read.add(master.readInputRegisters(1, 0, 14));
        }
        stop.set(true);
        showing.join();

        assertThat(read)
                .allSatisfy(
                        words -> {
                            assertThat(words[0].getValue()).isEqualTo(words[1].getValue());
                            InputRegister[] inlet = {words[10], words[11]};
                            InputRegister[] boosted = {words[12], words[13]};
                            assertThat(psi(inlet)).isEqualTo(psi(boosted));
                        });
    }

    @Test
    void one_client_too_many_is_turned_away_and_let_in_when_there_is_room() throws Exception {
        ModbusTCPMaster first = master();
        first.readInputRegisters(1, 0, 1);
        master().readInputRegisters(1, 0, 1);
        try (Socket third = new Socket(InetAddress.getLoopbackAddress(), panel.port())) {
            assertThat(third.getInputStream().read()).isEqualTo(-1);
        }

        first.disconnect();

        Awaitility.await()
                .atMost(Duration.ofSeconds(5))
                .ignoreExceptions()
                .until(() -> master().readInputRegisters(1, 0, 1).length == 1);
    }

    @Test
    void garbage_ends_its_own_connection_only() throws Exception {
        Random random = new Random(4711);
        ModbusTCPMaster master = master();
        for (int i = 0; i < 50; i++) {
            byte[] garbage = new byte[1 + random.nextInt(400)];
            random.nextBytes(garbage);
            try (Socket rude = new Socket(InetAddress.getLoopbackAddress(), panel.port())) {
                rude.setSoTimeout(2000);
                rude.getOutputStream().write(garbage);
                rude.shutdownOutput();
                drain(rude.getInputStream());
            } catch (IOException e) {
                // A reset is as good an answer as a close.
                assertThat(e).isInstanceOf(java.net.SocketException.class);
            }
        }

        int counts = master.readInputRegisters(1, 0, 1)[0].getValue();

        assertThat(counts).isEqualTo(Samples.counts(42));
    }

    private static void drain(InputStream in) throws IOException {
        while (in.read() >= 0) {
            Thread.onSpinWait();
        }
    }

    @Test
    void close_ends_clients_threads_and_the_port() throws Exception {
        ModbusTCPMaster master = master();
        master.readInputRegisters(1, 0, 1);
        String threads = "bench-modbus-" + panel.port();

        panel.close();
        panel.close();

        assertThatThrownBy(() -> master.readInputRegisters(1, 0, 1))
                .isInstanceOf(ModbusException.class);
        Awaitility.await()
                .atMost(Duration.ofSeconds(5))
                .until(
                        () ->
                                Thread.getAllStackTraces().keySet().stream()
                                        .noneMatch(t -> t.getName().startsWith(threads)));
    }

    @Test
    void a_port_that_is_taken_is_said_so() {
        assertThatThrownBy(() -> new ModbusPanel("other", panel.port(), List.of("jet-1")))
                .isInstanceOf(BindException.class);
    }
}
