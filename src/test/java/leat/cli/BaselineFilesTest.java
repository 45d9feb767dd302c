package leat.cli;

import static leat.cli.Ran.leat;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import leat.replay.Played;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Recordings of a machine when it was sound, beside one that is to be explained. */
class BaselineFilesTest {

    @TempDir static Path folder;
    private static Path sound;
    private static Path worn;

    @BeforeAll
    static void record() throws IOException {
        sound = folder.resolve("sound.csv");
        worn = folder.resolve("worn.csv");
        Played.of("healthy", "jet-1").writeCsv(sound);
        Played.of("worn-booster", "jet-1").writeCsv(worn);
    }

    private static JsonNode json(Ran ran) throws IOException {
        assertThat(ran.code()).as(ran.err()).isZero();
        return new ObjectMapper().readTree(ran.out());
    }

    private static double weight(String cause, JsonNode causes) {
        for (JsonNode each : causes) {
            if (each.get("cause").asText().equals(cause)) {
                return each.get("weight").asDouble();
            }
        }
        return 0;
    }

    @Test
    void a_recording_is_compared_with_the_sound_ones_and_their_number_is_said() throws IOException {
        Ran two =
                leat(
                        "replay",
                        worn.toString(),
                        "--json",
                        "--baseline",
                        sound.toString(),
                        "--baseline",
                        sound.toString());

        JsonNode alone = json(leat("replay", worn.toString(), "--json")).get("causes");
        JsonNode compared = json(two).get("causes");
        assertThat(compared.get(0).get("cause").asText()).isEqualTo("worn-booster");
        assertThat(weight("worn-booster", compared)).isGreaterThan(weight("worn-booster", alone));
        assertThat(two.err()).contains("compared with 2 sound starts", "less sure");
        assertThat(two.err().lines()).hasSize(1);
    }

    @Test
    void one_start_is_one_start() {
        Ran one = leat("replay", worn.toString(), "--ascii", "--baseline", sound.toString());

        assertThat(one.code()).isZero();
        assertThat(one.out()).contains("compared with 1 sound start.");
    }

    @Test
    void the_verdicts_are_as_without_them() throws IOException {
        JsonNode without = json(leat("replay", worn.toString(), "--json"));
        JsonNode with =
                json(leat("replay", worn.toString(), "--json", "--baseline", sound.toString()));

        assertThat(with.get("alarms")).isEqualTo(without.get("alarms"));
        assertThat(with.get("baseline")).isEqualTo(without.get("baseline"));
        assertThat(with.get("startups").get(0).get("verdict"))
                .isEqualTo(without.get("startups").get(0).get("verdict"));
    }

    @Test
    void columns_are_named_for_both() throws IOException {
        for (Path file : List.of(sound, worn)) {
            Files.writeString(
                    folder.resolve("named-" + file.getFileName()),
                    Files.readString(file).replace("boosted_psi", "P out"));
        }
        String[] words = {
            "replay",
            folder.resolve("named-worn.csv").toString(),
            "--json",
            "--column",
            "boosted=P out:psi",
            "--baseline",
            folder.resolve("named-sound.csv").toString()
        };

        assertThat(json(leat(words)).get("startups")).hasSize(1);
    }

    private static void assertRefused(String why, String... words) {
        Ran ran = leat(words);

        assertThat(ran.err()).contains(why).doesNotContain("Exception");
        assertThat(ran.err().lines()).hasSize(1);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.code()).isEqualTo(2);
    }

    @Test
    void a_baseline_without_a_start_is_refused_with_what_to_do() throws IOException {
        Path still = folder.resolve("still.csv");
        List<String> rows = Files.readAllLines(sound);
        Files.write(still, rows.subList(0, 40));

        assertRefused(
                "no start could be measured in it. Give a recording that begins at rest",
                "replay",
                worn.toString(),
                "--baseline",
                still.toString());
    }

    @Test
    void a_baseline_whose_gauge_was_broken_is_refused() throws IOException {
        Path broken = folder.resolve("broken.csv");
        Played.of("broken-loop", "jet-1").writeCsv(broken);

        assertRefused(
                "with sound gauges",
                "replay",
                worn.toString(),
                "--json",
                "--baseline",
                broken.toString());
    }

    @Test
    void a_baseline_that_is_not_there_is_refused() {
        assertRefused("none.csv", "replay", worn.toString(), "--json", "--baseline", "none.csv");
    }

    @Test
    void what_is_stored_has_its_own_baseline() {
        assertRefused(
                "--column, --zone, --hold and --baseline are for a file",
                "replay",
                "jet-1/17",
                "--baseline",
                sound.toString());
    }
}
