package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The machines of a site whose leat was ended in the year before. */
class MachinesCommandTest {

    @TempDir private static Path folder;
    private static StoredSite site;

    @BeforeAll
    static void live() throws IOException {
        site =
                StoredSite.in(folder)
                        .saw("jet-1", StoredSite.pressures("healthy", "jet-1", StoredSite.SIX))
                        .saw(
                                "jet-2",
                                StoredSite.pressures("worn-booster", "jet-1", StoredSite.SIX));
    }

    private static List<String> lines(String... words) {
        Ran ran = site.leat("machines", words);
        assertThat(ran.code()).as(ran.err()).isZero();
        return ran.out().lines().toList();
    }

    @Test
    void machine_with_an_alarm_comes_first_and_the_others_in_the_order_of_the_site() {
        List<String> lines = lines();

        assertThat(lines).filteredOn(line -> line.startsWith("jet-")).hasSize(2);
        assertThat(lines.get(lines.size() - 3)).startsWith("jet-2 ").contains("WARNING ");
        assertThat(lines.get(lines.size() - 2)).startsWith("jet-1 ").contains(" good");
    }

    @Test
    void leat_that_does_not_run_is_told_with_the_age_of_what_is_shown() {
        assertThat(String.join(" ", lines()).replaceAll(" +", " "))
                .contains("LEAT DOES NOT RUN. All below is of 2026-01-05 06:0")
                .contains(" d ago. It was ended. Start it: leat run, or the")
                .contains("was ")
                .contains("silent");
    }

    @Test
    void german_is_told_in_german_with_a_first_check() {
        assertThat(String.join(" ", lines("--lang", "de", "--wide")))
                .contains(
                        "LEAT LÄUFT NICHT", "Maschine", "WARNUNG ", "erste Prüfung", "Strahl aus");
    }

    @Test
    void store_alone_tells_the_machines_of_its_last_run() {
        Ran ran = Ran.leat("machines", "--store", site.database().toString());

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(ran.out()).contains("jet-1 ", "jet-2 ");
    }

    @Test
    void document_tells_no_value_that_is_not_of_this_moment() throws IOException {
        JsonNode json = site.json("machines", "--json");

        assertThat(json.at("/leat/state").asText()).isEqualTo("ended");
        JsonNode jet = json.at("/machines/0");
        assertThat(jet.get("machine").asText()).isEqualTo("jet-1");
        assertThat(jet.at("/last_start/number").asText()).startsWith("jet-1/");
        assertThat(jet.at("/gauges/1/channel").asText()).isEqualTo("boosted");
        assertThat(jet.at("/gauges/1/showing").asText()).isEqualTo("silent");
        assertThat(jet.at("/gauges/1").has("value")).isFalse();
        assertThat(json.at("/machines/1/alarms/0/grade").asText()).isEqualTo("warning");
    }

    @Test
    void machine_that_is_not_there_is_refused_with_those_that_are() {
        Ran ran = site.leat("watch", "jet-9");

        assertThat(ran.code()).isEqualTo(ExitCode.WRONG);
        assertThat(ran.err()).contains("There is no machine jet-9; known are [jet-1, jet-2].");
    }

    @Test
    void site_on_which_leat_never_ran_is_told_so() throws IOException {
        Path other = Files.createDirectories(folder.resolve("new"));
        Path file = Files.copy(site.file(), other.resolve("site.yaml"));

        Ran ran = Ran.leat("watch", "--site", file.toString());

        assertThat(ran.code()).isEqualTo(ExitCode.FAILED);
        assertThat(ran.err()).contains("there is no store. Has leat run under this site.yaml?");
    }
}
