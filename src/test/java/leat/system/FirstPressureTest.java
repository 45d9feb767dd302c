package leat.system;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import leat.Gear;
import leat.interop.FieldDevice;
import leat.interop.Mosquitto;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.store.StoreReader;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The commands of the README from a transducer that nobody knows to its first pressure, typed into
 * a shell as they stand there, against programs that we did not write. Only the address is another.
 */
@Tag(Gear.THOROUGH)
@Timeout(180)
class FirstPressureTest {

    private static final String ADDRESS = "modbus 192.0.2.10:502";
    private static final double TRUE_PSI = 62;

    @TempDir Path folder;
    private final List<Process> left = new ArrayList<>();

    /** The block of the README, as many commands as its title says. */
    private static List<String> commands() throws IOException {
        List<String> commands =
                Files.readAllLines(Path.of("README.md")).stream()
                        .dropWhile(line -> !line.startsWith("leat probe " + ADDRESS))
                        .takeWhile(line -> !line.startsWith("```"))
                        .toList();
        assertThat(commands).hasSize(5);
        return commands;
    }

    private Process shell(String line) throws IOException {
        Path leat = folder.resolve("leat");
        if (!Files.exists(leat)) {
            String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
            String script =
                    "#!/bin/sh\nexec '%s' -XX:TieredStopAtLevel=1 -cp '%s' leat.cli.Main \"$@\"\n"
                            .formatted(java, LeatProcess.programOnly());
            Files.writeString(leat, script);
            Files.setPosixFilePermissions(leat, PosixFilePermissions.fromString("rwx------"));
        }
        ProcessBuilder builder =
                new ProcessBuilder("sh", "-c", line)
                        .directory(folder.toFile())
                        .redirectErrorStream(true);
        builder.environment().put("PATH", folder + ":" + System.getenv("PATH"));
        return builder.start();
    }

    /** What a command said; it must have worked. */
    private String said(String line) throws IOException, InterruptedException {
        Process process = shell(line);
        String said = new String(process.getInputStream().readAllBytes(), UTF_8);
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(line + "\n" + said).isZero();
        return said;
    }

    private void liveThrough(String address, double toleratedPsi) throws Exception {
        try {
            List<String> typed =
                    commands().stream().map(line -> line.replace(ADDRESS, address)).toList();
            assertThat(said(typed.get(0))).contains("likeliest first");
            said(typed.get(1));
            assertThat(said(typed.get(2))).contains("is in order");
            assertThat(typed.get(3)).endsWith(" &");
            Process leat = shell("exec " + typed.get(3).replace(" &", " > run.log"));
            left.add(leat);
            await().atMost(Duration.ofSeconds(60))
                    .untilAsserted(
                            () ->
                                    assertThat(said(typed.get(4)))
                                            .startsWith("jet-1 boosted: 62.0 psi, mean of "));

            assertThat(stored())
                    .isNotEmpty()
                    .allSatisfy(psi -> assertThat(psi).isCloseTo(TRUE_PSI, within(toleratedPsi)));
        } finally {
            for (Process process : left) {
                process.destroy();
                process.waitFor(20, TimeUnit.SECONDS);
            }
        }
    }

    private List<Double> stored() {
        List<Double> stored = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(folder.resolve("data/leat.db"))) {
            reader.inputs(
                    "jet-1",
                    0,
                    Long.MAX_VALUE,
                    (seq, input) -> {
                        if (input instanceof Reading reading
                                && reading.channel() == Channel.BOOSTED) {
                            stored.add(reading.value());
                        }
                    });
        }
        return stored;
    }

    @Test
    void whole_microamps_of_a_loop_in_one_register() throws Exception {
        try (FieldDevice device = FieldDevice.start(0)) {
            device.showWords(0, 0, 4_000, 0, 8_960, 0, 31, 7, 1);

            liveThrough("modbus 127.0.0.1:" + device.port(), 0.01);
        }
    }

    @Test
    void a_float_of_two_registers_with_its_words_changed_over() throws Exception {
        try (FieldDevice device = FieldDevice.start(0)) {
            int bits = Float.floatToIntBits(62.003f);
            device.showWords(0, 1, 7, 0, 0, bits & 0xffff, bits >>> 16, 0, 0);

            liveThrough("modbus 127.0.0.1:" + device.port(), 0.01);
        }
    }

    @Test
    void a_document_of_a_sensor_at_a_broker() throws Exception {
        try (Mosquitto broker = new Mosquitto(folder)) {
            broker.start();
            broker.publish("yard/old", "{\"psi\": 61.9}", "-r");
            broker.startSensor(
                    "yard/jet/out",
                    () ->
                            "{\"at\": \"%s\", \"n\": 17, \"p\": {\"value\": 4.2747, \"unit\": \"bar\"}}"
                                    .formatted(Instant.now()));

            liveThrough("mqtt " + broker.url(), 0.01);
        }
    }
}
