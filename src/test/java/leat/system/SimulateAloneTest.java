package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import leat.Gear;
import leat.interop.Mosquitto;
import leat.interop.Peer;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The bench by itself, in a process of its own, before clients that we did not write. */
@Timeout(120)
class SimulateAloneTest {

    private static final Duration SOON = Duration.ofSeconds(40);
    private static final Pattern PORT = Pattern.compile("Modbus TCP on 127\\.0\\.0\\.1:(\\d+)");
    private static final String READ_JET_2 =
            """
            import struct, sys
            from pymodbus.client import ModbusTcpClient
            client = ModbusTcpClient("127.0.0.1", port=int(sys.argv[1]))
            assert client.connect()
            words = client.read_input_registers(10, 4, slave=2).registers
            print("psi", *["%.0f" % psi for psi in struct.unpack(">ff", struct.pack(">HHHH", *words))])
            client.close()
            """;

    @TempDir private Path folder;

    private static String port(LeatProcess bench) {
        await().atMost(SOON).until(() -> PORT.matcher(bench.log()).find());
        Matcher said = PORT.matcher(bench.log());
        assertThat(said.find()).isTrue();
        return said.group(1);
    }

    private static String run(String... command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        try {
            byte[] printed = process.getInputStream().readAllBytes();
            assertThat(process.waitFor(20, TimeUnit.SECONDS)).isTrue();
            return new String(printed, StandardCharsets.UTF_8);
        } finally {
            process.destroyForcibly();
        }
    }

    @Test
    void mbpoll_and_pymodbus_read_it_while_it_plays() throws Exception {
        String mbpoll = Peer.require("mbpoll").toString();
        String python = Peer.requirePython("pymodbus").toString();
        try (LeatProcess bench = LeatProcess.start(folder, "simulate", "healthy", "--port", "0")) {
            String port = port(bench);

            String polled =
                    run(
                            mbpoll,
                            "-0",
                            "-1",
                            "-B",
                            "-m",
                            "tcp",
                            "-a",
                            "1",
                            "-t",
                            "3:float",
                            "-r",
                            "10",
                            "-c",
                            "1",
                            "-p",
                            port,
                            "127.0.0.1");
            String read = run(python, "-c", READ_JET_2, port);

            assertThat(polled).containsPattern("\\[10]:\\s+(3|4)\\d");
            assertThat(read).containsPattern("psi 4[3-7] ");
        }
    }

    @Tag(Gear.THOROUGH)
    @Test
    void mosquitto_sub_hears_each_value_at_the_pace_of_the_scenario() throws Exception {
        try (Mosquitto broker = new Mosquitto(folder)) {
            broker.start();
            Mosquitto.Heard heard = broker.listen("yard/jet-1/#");
            try (LeatProcess bench =
                    LeatProcess.start(
                            folder,
                            "simulate",
                            "slow-publisher",
                            "--port",
                            "0",
                            "--mqtt",
                            broker.url())) {
                await().atMost(SOON).until(() -> heard.lines("yard/jet-1/boosted").size() >= 4);
                assertThat(bench.isAlive()).isTrue();
            }

            List<Long> seconds =
                    heard.lines("yard/jet-1/boosted").stream()
                            .map(line -> line.replaceAll(".*\"t\":\"(.*)\"}", "$1"))
                            .map(time -> Instant.parse(time).toEpochMilli() / 1000)
                            .toList();
            assertThat(seconds.get(1) - seconds.get(0)).isGreaterThanOrEqualTo(1);
            assertThat(heard.lines("yard/jet-1/inlet").get(0)).contains("{\"psi\":4");
        }
    }

    @Test
    void a_recording_that_is_ended_half_way_leaves_no_file() throws Exception {
        try (LeatProcess bench =
                LeatProcess.start(
                        folder, "simulate", "healthy", "--record", "out.csv", "--weeks", "300")) {
            Path part = folder.resolve("out.csv.part");
            await().atMost(SOON).until(() -> Files.exists(part) && Files.size(part) > 100_000);

            bench.terminate();

            try (Stream<Path> left = Files.list(folder)) {
                assertThat(left).noneMatch(file -> file.getFileName().toString().startsWith("out"));
            }
        }
    }
}
