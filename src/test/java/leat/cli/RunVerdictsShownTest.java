package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import leat.signal.Input;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A store of one machine with a worn booster, whose rise is good, and of one that is sound and runs
 * still: commands say how the run was, not the rise alone.
 */
class RunVerdictsShownTest {

    private static final String FOOTNOTE = "of its run there is no verdict";

    @TempDir private static Path lived;
    private static StoredSite site;
    private static StoredSite unjudged;

    @TempDir Path folder;

    @BeforeAll
    static void live(@TempDir Path other) throws IOException {
        List<Input> worn = StoredSite.pressures("worn-booster", "jet-1", StoredSite.SIX);
        List<Input> healthy = StoredSite.pressures("healthy", "jet-1", StoredSite.SIX);
        site = StoredSite.in(lived, "level: { delay: 10 min }\n  ratio: { warning_delay: 10 min }");
        site.saw("jet-1", worn);
        site.saw("jet-2", healthy.subList(0, healthy.size() / 2));
        unjudged = StoredSite.in(other).sawBeforeRunsWereJudged("jet-1", worn);
    }

    private static String row(Ran list, String number) {
        return list.out().lines().filter(line -> line.startsWith(number)).findFirst().orElseThrow();
    }

    @Test
    void start_of_a_run_with_a_low_level_is_not_listed_as_good() throws IOException {
        Ran list = site.leat("startups");

        assertThat(row(list, "jet-1/1")).contains("low level, low ratio");
        assertThat(row(list, "jet-1/1")).doesNotContain("good");
        JsonNode start =
                site.json("startups", "--json", "--machine", "jet-1").get("startups").get(0);
        assertThat(start.get("verdict").asText()).isEqualTo("good");
        assertThat(start.get("run_verdict").asText()).isEqualTo("warning");
        assertThat(start.get("run_note").asText()).isEqualTo("low level, low ratio");
        assertThat(start.at("/run/over").asBoolean()).isTrue();
        assertThat(start.at("/run/loaded_psi").asDouble()).isBetween(70.0, 80.0);
        assertThat(start.at("/run/raised").findValuesAsText("rule"))
                .containsExactlyInAnyOrder("level-low", "ratio");
        assertThat(start.at("/run/parts/0/aspect").asText()).isEqualTo("rise");
    }

    @Test
    void run_that_lasts_is_not_called_good_before_it_has_been_judged() {
        Ran list = site.leat("startups");

        assertThat(row(list, "jet-2/1")).contains("rise good, running");
        assertThat(list.out()).doesNotContain(FOOTNOTE);
        assertThat(site.leat("replay", "jet-2/1").out()).contains("Its run still lasts");
    }

    @Test
    void start_from_before_runs_were_judged_says_that_its_rise_alone_was() throws IOException {
        Ran list = unjudged.leat("startups");

        assertThat(row(list, "jet-1/1")).contains("rise good").doesNotContain("running");
        assertThat(list.out()).contains(FOOTNOTE);
        assertThat(unjudged.leat("replay", "jet-1/1").out())
                .contains("Its run was not judged then.");
        JsonNode start = unjudged.json("startups", "--json").get("startups").get(0);
        assertThat(start.get("run_verdict").isNull()).isTrue();
        assertThat(start.get("run").isNull()).isTrue();
    }

    @Test
    void replay_of_a_start_tells_what_its_run_raised_after_what_is_replayed() throws IOException {
        Path page = folder.resolve("start.html");

        Ran ran = site.leat("replay", "jet-1/1", "--report", page.toString());

        assertThat(ran.out().lines()).allMatch(line -> line.length() <= 80);
        assertThat(ran.out().replaceAll("\\R +", " "))
                .contains("low level, low ratio; rise good")
                .containsPattern("Its run of [0-9.]+ s: low level, low ratio .as judged then")
                .containsPattern(
                        "WARNING: level, jet on 7\\d\\.\\d [^ ]+ \\d\\.\\d psi, should be at least 90.0 psi")
                .containsPattern("good: rise 1\\.\\d\\d")
                .contains("It raised: ", "boosted pressure low WARNING", "weak boost WARNING")
                .contains("No alarm was raised in what was replayed.");
        assertThat(Files.readString(page))
                .containsPattern(
                        "class=\"verdict warning\"><svg.*</svg>Run of [0-9.]+ s: low level, low ratio<")
                .containsPattern("low level, low ratio</p>\\s+<p>It raised: [^<]*WARNING")
                .containsPattern("boosted reached<.*not met:</strong> at least 90.0 psi")
                .doesNotContain("not met:</strong> at most 3.0 s")
                .contains("<h2>The run</h2>", "Nothing in what was replayed. What its run raised");
        JsonNode replayed = site.json("replay", "--json", "jet-1/1");
        assertThat(replayed.at("/run_at_end/over").asBoolean(true)).isFalse();
    }

    @Test
    void backtest_counts_runs_by_their_verdict() throws IOException {
        String[] milder = {
            "--set",
            "level.warning=60psi",
            "--set",
            "level.advisory=60psi",
            "--set",
            "ratio.warning=1.3"
        };

        JsonNode machines =
                site.json(
                                "backtest",
                                Stream.concat(Stream.of("--json"), Stream.of(milder))
                                        .toArray(String[]::new))
                        .get("machines");

        assertThat(machines.get(0).at("/runs_before/starts").asInt()).isEqualTo(1);
        assertThat(machines.get(0).at("/runs_before/not_good").asInt()).isEqualTo(1);
        assertThat(machines.get(0).at("/runs_after/good").asInt()).isEqualTo(1);
        assertThat(machines.get(1).at("/runs_after/good").asInt()).isEqualTo(1);
        assertThat(site.leatAt(120, "backtest", milder).out())
                .contains(
                        "As it is: 1 start, runs: 0 good, 1 not good, 0 not judged;"
                                + " changed: 1 start, runs: 1 good, 0 not good, 0 not judged.",
                        "Either way: 1 start, runs: 1 good, 0 not good, 0 not judged.");
    }
}
