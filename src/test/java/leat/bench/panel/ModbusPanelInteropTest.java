package leat.bench.panel;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.TimeUnit;
import leat.interop.Peer;
import org.junit.jupiter.api.Test;

/** A Modbus client that we did not write reads the panel. */
class ModbusPanelInteropTest {

    private static final String READ_EVERYTHING =
            """
            import struct, sys
            from pymodbus.client import ModbusTcpClient
            client = ModbusTcpClient("127.0.0.1", port=int(sys.argv[1]))
            assert client.connect()
            words = client.read_input_registers(0, 3, slave=1).registers
            print("counts", *words)
            words = client.read_holding_registers(10, 4, slave=1).registers
            floats = struct.unpack(">ff", struct.pack(">HHHH", *words))
            print("psi", *["%.1f" % psi for psi in floats])
            print("inputs", *client.read_discrete_inputs(0, 2, slave=1).bits[:2])
            print("coils", *client.read_coils(0, 2, slave=2).bits[:2])
            print("beyond", client.read_input_registers(100, 1, slave=1).isError())
            print("unit 9", client.read_input_registers(0, 1, slave=9).isError())
            print("write", client.write_register(0, 1, slave=1).isError())
            client.close()
            """;

    @Test
    void pymodbus_reads_what_the_panel_shows() throws Exception {
        Path python = Peer.requirePython("pymodbus");
        try (ModbusPanel panel = new ModbusPanel("cabinet-1", 0, List.of("jet-1", "jet-2"))) {
            panel.show(
                    Instant.parse("2026-01-05T06:00:00Z"),
                    List.of(
                            Samples.of(0, "jet-1", 42, 100, true),
                            Samples.of(0, "jet-2", 42, 0, false)));

            String printed = run(python, READ_EVERYTHING, panel.port());

            assertThat(printed.lines())
                    .containsExactly(
                            "counts "
                                    + Samples.counts(42)
                                    + " "
                                    + Samples.counts(100)
                                    + " "
                                    + Samples.counts(98),
                            "psi 42.0 100.0",
                            "inputs True True",
                            "coils False False",
                            "beyond True",
                            "unit 9 True",
                            "write True");
        }
    }

    /** Addresses of mbpoll count from 1 unless told otherwise (-0). */
    @Test
    void mbpoll_reads_what_the_panel_shows() throws Exception {
        String mbpoll = Peer.require("mbpoll").toString();
        try (ModbusPanel panel = new ModbusPanel("cabinet-1", 0, List.of("jet-1", "jet-2"))) {
            panel.show(
                    Instant.parse("2026-01-05T06:00:00Z"),
                    List.of(
                            Samples.of(0, "jet-1", 42, 100, true),
                            Samples.of(0, "jet-2", 42, 0, false)));
            String port = Integer.toString(panel.port());

            String counts = mbpoll(mbpoll, port, "1", "3", "0", "3");
            String psi = mbpoll(mbpoll, port, "1", "3:float", "10", "2");
            String contacts = mbpoll(mbpoll, port, "2", "1", "0", "2");
            String nobody = mbpoll(mbpoll, port, "9", "3", "0", "1");

            assertThat(counts)
                    .containsPattern("\\[0]:\\s+" + Samples.counts(42))
                    .containsPattern("\\[1]:\\s+" + Samples.counts(100));
            assertThat(psi)
                    .containsPattern("\\[10]:\\s+4[12]")
                    .containsPattern("\\[12]:\\s+(99|100)");
            assertThat(contacts).containsPattern("\\[0]:\\s+0").containsPattern("\\[1]:\\s+0");
            assertThat(nobody).contains("Target device failed to respond");
        }
    }

    private static String mbpoll(
            String mbpoll, String port, String unit, String type, String from, String count)
            throws Exception {
        return run(
                mbpoll,
                "-0",
                "-1",
                "-B",
                "-m",
                "tcp",
                "-a",
                unit,
                "-t",
                type,
                "-r",
                from,
                "-c",
                count,
                "-p",
                port,
                "127.0.0.1");
    }

    private static String run(Path python, String program, int port) throws Exception {
        return run(python.toString(), "-c", program, Integer.toString(port));
    }

    private static String run(String... command) throws Exception {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        try {
            byte[] printed = process.getInputStream().readAllBytes();
            assertThat(process.waitFor(20, TimeUnit.SECONDS)).isTrue();
            return new String(printed, StandardCharsets.UTF_8);
        } finally {
            process.destroyForcibly();
        }
    }
}
