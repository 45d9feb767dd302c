package leat.cli;

import static leat.cli.Ran.leat;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RecordCommandTest {

    @TempDir private Path folder;
    private String file;

    @BeforeEach
    void name() {
        file = folder.resolve("out.csv").toString();
    }

    private List<String[]> truth() throws IOException {
        return Files.readAllLines(folder.resolve("out.truth.csv")).stream()
                .skip(2)
                .map(line -> line.split(",", -1))
                .toList();
    }

    @Test
    void a_recording_is_said_to_be_written_and_how_to_look_at_it() {
        Ran ran = leat("simulate", "demo", "--record", file, "--for", "20 s");

        assertThat(ran.code()).isZero();
        assertThat(ran.err()).isEmpty();
        assertThat(ran.out())
                .isEqualToNormalizingNewlines(
                        file
                                + ": jet-1 of jet-1, jet-2 in scenario demo, 20 s from"
                                + " 2026-01-05T07:00 UTC, 1 start, 400 rows.\n"
                                + folder.resolve("out.truth.csv")
                                + ": what was true of each start. Everything in both is"
                                + " invented.\n"
                                + "Look at it with: leat replay "
                                + file
                                + "\n");
    }

    /**
     * 0.10 s with noise, lag and converter in between. The last start of each: a rise of many
     * seconds, such as the first after air, has no ends so sharp.
     */
    @ParameterizedTest
    @CsvSource({"healthy, 20", "worn-booster, 20", "healthy, 10", "air-after-service, 20"})
    void replay_measures_each_start_of_a_recording_near_its_truth(String scenario, String rate)
            throws IOException {
        leat("simulate", scenario, "--record", file, "--rate", rate);

        Ran replayed = leat("replay", file, "--json");

        JsonNode startups = new ObjectMapper().readTree(replayed.out()).findValue("startups");
        assertThat(startups).hasSameSizeAs(truth());
        int last = truth().size() - 1;
        double rise = startups.get(last).findValue("rise_s").asDouble();
        assertThat(rise).isCloseTo(Double.parseDouble(truth().get(last)[4]), within(0.10));
    }

    @Test
    void recording_has_the_machine_the_rate_and_the_day_that_were_asked_for() throws IOException {
        Ran ran =
                leat(
                        "simulate",
                        "demo",
                        "--record",
                        file,
                        "--machine",
                        "jet-2",
                        "--rate",
                        "5",
                        "--from",
                        "2026-03-01 06:00",
                        "--for",
                        "4s");

        assertThat(ran.code()).isZero();
        List<String> lines = Files.readAllLines(Path.of(file));
        assertThat(lines.get(0)).contains("machine jet-2", "from 2026-03-01T06:00Z");
        assertThat(lines).hasSize(2 + 20);
        assertThat(lines.get(3)).startsWith("2026-03-01T06:00:00.200Z,");
    }

    @Test
    void what_is_there_is_not_written_over_without_force() throws IOException {
        Files.writeString(folder.resolve("out.truth.csv"), "mine");

        Ran refused = leat("simulate", "demo", "--record", file, "--for", "4s");
        Ran forced = leat("simulate", "demo", "--record", file, "--for", "4s", "--force");

        assertThat(refused.code()).isEqualTo(1);
        assertThat(refused.err()).contains("out.truth.csv is there already; --force");
        assertThat(forced.code()).isZero();
    }

    @Test
    void a_folder_that_is_not_there_is_said_in_one_line() {
        String nowhere = folder.resolve("no").resolve("out.csv").toString();

        Ran ran = leat("simulate", "demo", "--record", nowhere, "--for", "4s");

        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err().strip().lines()).hasSize(1);
    }

    @ParameterizedTest
    @CsvSource({
        "--for 20, is no length of time",
        "--for 0s, longer than nothing",
        "--weeks -1, longer than nothing",
        "--days 9999, at most ten years",
        "--rate 0, 'allowed is 1 to 100'",
        "--rest-rate 0.5, 'allowed is 1 to 20'",
        "--machine jet-9, jet-9 is no machine of it",
        "--from yesterday, is no time",
        "--port 1502, leave out --port",
        "--stay, leave out --port"
    })
    void words_that_do_not_fit_are_refused_with_what_is_allowed(String option, String said) {
        String[] words = ("simulate demo --record " + file + " " + option).split(" ");

        Ran ran = leat(words);

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains(said);
        assertThat(Path.of(file)).doesNotExist();
    }

    @Test
    void lengths_without_a_recording_are_refused() {
        Ran ran = leat("simulate", "demo", "--weeks", "3");

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("go with --record FILE.csv");
    }

    @Test
    void each_scenario_is_listed_with_what_it_shows_and_how_to_tell_it_apart() {
        Ran ran = leat("simulate");

        assertThat(ran.out()).contains("stuck-transducer", "shows", "apart", "expect");
        assertThat(ran.out().lines()).allMatch(line -> line.length() <= 100);
    }
}
