package leat.screen;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.File;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import leat.Gear;
import leat.interop.Peer;
import leat.live.StoredNow;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** {@code leat watch} as a program of its own on a pseudo terminal, with a person before it. */
@Timeout(120)
class WatchOnTerminalTest {

    private static final int SIGTERM_CODE = 143;

    @TempDir private static Path folder;
    private static Path python;

    @BeforeAll
    static void live() throws IOException {
        python = Peer.requirePython("pty");
        Peer.require("stty");
        try (StoredNow stored = StoredNow.in(folder)) {
            for (String machine : List.of("jet-1", "jet-2")) {
                stored.commit(machine, StoredNow.between(stored.played("demo", machine), 0, 50));
            }
        }
    }

    /** At 80 columns and 24 lines; what is typed and seen, step by step. */
    private static JsonNode watched(String... steps) throws Exception {
        List<String> command = new ArrayList<>(List.of(python.toString(), script().toString()));
        command.addAll(List.of("80", "24"));
        command.addAll(List.of(steps));
        command.add("--");
        command.addAll(watch());
        Process person = new ProcessBuilder(command).start();
        String said = new String(person.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        String why = new String(person.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(person.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(person.exitValue()).as(why).isZero();
        return new ObjectMapper().readTree(said);
    }

    private static Path script() throws URISyntaxException {
        return Path.of(WatchOnTerminalTest.class.getResource("terminal.py").toURI());
    }

    private static List<String> watch() {
        String all =
                System.getProperty(
                        "surefire.test.class.path", System.getProperty("java.class.path"));
        String program =
                Arrays.stream(all.split(File.pathSeparator))
                        .filter(entry -> !entry.contains("test-classes"))
                        .map(entry -> Path.of(entry).toAbsolutePath().toString())
                        .collect(Collectors.joining(File.pathSeparator));
        String site = folder.resolve("site.yaml").toString();
        return List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                program,
                "leat.cli.Main",
                "watch",
                "--site",
                site);
    }

    private static void assertGivenBack(JsonNode after) {
        assertThat(after.get("as_before").asBoolean()).as("stty -a").isTrue();
        assertThat(after.get("modes"))
                .as("modes left on")
                .map(JsonNode::asText)
                .containsOnly("?25");
        assertThat(after.get("outside")).as("drawn outside of the window").isEmpty();
    }

    @Test
    void window_may_change_a_number_chooses_and_q_gives_the_terminal_back() throws Exception {
        JsonNode after =
                watched(
                        "see=LEAT STORES NOTHING",
                        "see=>2 jet-2",
                        "size=40x20",
                        "see=q ends",
                        "type=1",
                        "see=>1 jet-1",
                        "size=120x45",
                        "see=set level",
                        "type=q");

        assertThat(after.get("code").asInt()).isZero();
        assertGivenBack(after);
    }

    @ParameterizedTest
    @Tag(Gear.THOROUGH)
    @ValueSource(strings = {"type=\u0003", "signal=SIGINT", "type=\u0004"})
    void ctrl_c_and_the_end_of_what_is_typed_give_the_terminal_back(String end) throws Exception {
        JsonNode after = watched("see=q ends", end);

        assertThat(after.get("code").asInt()).isZero();
        assertGivenBack(after);
    }

    @Test
    @Tag(Gear.THOROUGH)
    void sigterm_gives_the_terminal_back() throws Exception {
        JsonNode after = watched("see=q ends", "signal=SIGTERM");

        assertThat(after.get("code").asInt()).isEqualTo(SIGTERM_CODE);
        assertGivenBack(after);
    }

    @Test
    @Tag(Gear.THOROUGH)
    void after_a_stop_from_outside_the_picture_comes_back() throws Exception {
        JsonNode after =
                watched("see=q ends", "signal=SIGSTOP", "signal=SIGCONT", "see=q ends", "type=q");

        assertThat(after.get("code").asInt()).isZero();
        assertGivenBack(after);
    }

    @Test
    @Tag(Gear.THOROUGH)
    void without_a_terminal_each_change_is_a_line_with_nothing_but_text_in_it() throws Exception {
        Path out = folder.resolve("lines.txt");
        Process lines =
                new ProcessBuilder(watch())
                        .redirectErrorStream(true)
                        .redirectOutput(out.toFile())
                        .start();
        await().atMost(40, TimeUnit.SECONDS).until(() -> Files.readString(out).contains(" jet-2 "));
        lines.destroy();

        assertThat(lines.waitFor(20, TimeUnit.SECONDS)).isTrue();
        assertThat(Files.readAllLines(out))
                .allMatch(line -> line.matches("20\\d\\d-\\d\\d-\\d\\d .* (leat|jet-[12]) .*"))
                .noneMatch(line -> line.contains("\u001b"));
    }
}
