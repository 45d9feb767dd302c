package leat.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import leat.interop.Peer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MetricsTest {

    /** Prints each sample with its type and unit; ends with an error where anything is amiss. */
    private static final String READ =
            """
            import sys
            from prometheus_client.openmetrics.parser import text_string_to_metric_families as read
            for family in read(open(sys.argv[1], encoding="utf-8").read()):
                for sample in family.samples:
                    labels = ",".join(f"{k}={v}" for k, v in sorted(sample.labels.items()))
                    print(family.name, family.type, family.unit, sample.name, labels, sample.value, sep="|")
            """;

    @TempDir static Path folder;

    private static Yard boatyard;

    @BeforeAll
    static void play() throws IOException {
        boatyard = Yard.in(folder);
    }

    @AfterAll
    static void end() {
        boatyard.close();
    }

    @Test
    void a_parser_of_others_reads_what_the_page_says_in_numbers() throws Exception {
        Path python = Peer.requirePython("prometheus_client.openmetrics.parser");
        try (Yard.Opened yard = boatyard.open()) {
            Call call = yard.plain().get("/metrics");
            assertThat(call.header("content-type"))
                    .contains("application/openmetrics-text; version=1.0.0; charset=utf-8");
            assertThat(call.body()).endsWith("\n# EOF\n");

            List<String> read = read(python, call.body());

            assertThat(read)
                    .contains("leat_build|info||leat_build_info|version=test|1")
                    .contains(
                            "leat_source_readings|counter||leat_source_readings_total"
                                    + "|source=cabinet-1|900")
                    .contains(
                            "leat_alarms_standing|gauge||leat_alarms_standing"
                                    + "|grade=advisory,machine=jet-1|1")
                    .contains(
                            "leat_machine_phase|stateset||leat_machine_phase"
                                    + "|leat_machine_phase=rest,machine=jet-1|1")
                    .anyMatch(
                            line ->
                                    line.startsWith(
                                            "leat_pressure_pascals|gauge|pascals|leat_pressure_pascals"
                                                    + "|channel=inlet,machine=jet-1|2"));
        }
    }

    @Test
    void a_parser_of_others_reads_whatever_a_name_holds() throws Exception {
        Path python = Peer.requirePython("prometheus_client.openmetrics.parser");
        String hostile = "a \"b\" \\ c\nd # EOF é";

        List<String> read =
                read(
                        python,
                        new OpenMetrics()
                                .gauge("leat_test", "", "Help with \\ and\nmore.")
                                .sample(0.25, "name", hostile)
                                .sample(-1e300, "name", "")
                                .end());

        assertThat(String.join("\n", read))
                .contains("name=" + hostile + "|0.25")
                .contains("-1e+300");
    }

    @Test
    void a_family_without_its_unit_is_a_mistake() {
        assertThatThrownBy(() -> new OpenMetrics().gauge("leat_pressure", "pascals", "Pressure."))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private List<String> read(Path python, String text) throws IOException, InterruptedException {
        Path file = Files.writeString(folder.resolve("metrics.txt"), text);
        Process process =
                new ProcessBuilder(python.toString(), "-c", READ, file.toString())
                        .redirectErrorStream(true)
                        .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(said).isZero();
        return said.lines().toList();
    }
}
