package leat.cli;

import static leat.cli.Ran.leat;
import static leat.cli.StoredSite.json;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import leat.replay.Played;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.SourceLost;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Replay, export and the list of startups, on the store that a live run of two machines left. */
class ReplayCommandTest {

    private static final ObjectMapper MAPPER = new ObjectMapper();

    @TempDir private static Path lived;
    private static StoredSite stored;

    @TempDir Path folder;
    private StoredSite site;

    @BeforeEach
    void copy() throws IOException {
        site = stored.copyTo(folder);
    }

    @BeforeAll
    static void live() throws IOException {
        stored = StoredSite.in(lived, "rise: { advisory: 1.2 s }");
        for (String machine : List.of("jet-1", "jet-2")) {
            List<Input> inputs = new ArrayList<>();
            inputs.add(
                    new SourceLost(
                            Channel.INLET, StoredSite.SIX, "leat was not running, \"it\" says"));
            inputs.addAll(StoredSite.pressures("demo", machine, StoredSite.SIX));
            long last = inputs.get(inputs.size() - 1).atMicros();
            inputs.add(
                    new Instruction(
                            last, "Kim", new Order.Journal(Order.Entry.NOTE, "dial reads 99\nok")));
            stored.saw(machine, inputs);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"jet-1", "jet-2"})
    void an_exported_span_replays_to_the_very_json_of_the_store(String machine) throws IOException {
        Path file = folder.resolve("span.csv");
        String[] span = {"--machine", machine, "--since", "2026-01-05"};
        Ran fromStore = site.leat("replay", "--json", span[0], span[1], span[2], span[3]);
        Ran export = site.leat("export", span[0], span[1], span[2], span[3], "-o", file.toString());

        Ran fromFile = leat("replay", "--json", file.toString());

        assertThat(export.code()).as(export.err()).isZero();
        assertThat(fromFile.out()).isEqualTo(fromStore.out());
        assertThat(fromFile.err()).isEmpty();
        assertThat(json(fromStore).get("startups")).isNotEmpty();
        assertThat(json(fromStore).get("limits_changed").get("rise.advisory").asDouble())
                .isEqualTo(1.2);
    }

    @Test
    void a_replay_of_the_store_says_what_was_said_live() throws IOException {
        JsonNode live = json(site.leat("startups", "--json", "--machine", "jet-2")).get("startups");

        JsonNode replayed =
                json(site.leat("replay", "--json", "--machine", "jet-2", "--since", "2026-01-05"));

        List<JsonNode> oldestFirst = new ArrayList<>();
        live.forEach(startup -> oldestFirst.add(0, startup));
        assertThat(oldestFirst).hasSize(2);
        for (int i = 0; i < 2; i++) {
            JsonNode unnumbered = ((ObjectNode) oldestFirst.get(i)).without("number");
            JsonNode start = ((ObjectNode) replayed.get("startups").get(i)).without("causes");
            assertThat(unnumbered).isEqualTo(start);
        }
    }

    @Test
    void a_startup_is_replayed_and_exported_by_its_number() throws IOException {
        Path file = folder.resolve("start.csv");
        Ran fromStore = site.leat("replay", "jet-2/2", "--json");

        assertThat(site.leat("export", "jet-2/2", "-o", file.toString()).code()).isZero();

        Ran fromFile = leat("replay", file.toString(), "--json");
        assertThat(fromFile.out()).isEqualTo(fromStore.out());
        assertThat(MAPPER.readTree(fromStore.out()).get("startups").get(0).get("at").asText())
                .startsWith("2026-01-05T06:01:05");
    }

    @Test
    void the_account_shows_curve_numbers_alarms_and_caution_on_one_screen() {
        Ran ran = site.leat("replay", "jet-2/2", "--ascii");

        assertThat(ran.code()).isZero();
        assertThat(ran.err()).isEmpty();
        assertThat(ran.out())
                .contains(
                        "jet-2: 2026-01-05 06:00:05 +00:00 to",
                        "boosted #, inlet o",
                        "3 s before the start",
                        "Start at 2026-01-05 06:01:05 +00:00: no boost",
                        "should be",
                        "CRITICAL: rise no boost",
                        "It raised: no boost CRITICAL.",
                        "Caution: Stop the machine, isolate")
                .matches(text -> text.chars().allMatch(c -> c < 128), "is ASCII")
                .containsPattern("boosted over inlet +0\\.9");
        assertThat(ran.out().lines()).hasSizeLessThan(80).allMatch(line -> line.length() <= 80);
    }

    @Test
    void a_recording_carries_its_configuration_and_site_puts_another_over_it() throws IOException {
        Path file = folder.resolve("span.csv");
        site.leat("export", "--machine", "jet-1", "--since", "2026-01-05", "-o", file.toString());
        Path other = folder.resolve("other.yaml");
        Files.writeString(
                other,
                Files.readString(site.file())
                        .replace("rise: { advisory: 1.2 s }", "rise: { advisory: 2 s }"));

        JsonNode own = json(leat("replay", "--json", file.toString()));
        JsonNode under =
                json(leat("replay", "--json", "--site", other.toString(), file.toString()));

        assertThat(own.get("startups").get(0).get("verdict").asText()).isEqualTo("slow");
        assertThat(under.get("startups").get(0).get("verdict").asText()).isEqualTo("good");
        assertThat(under.get("config_hash")).isNotEqualTo(own.get("config_hash"));
    }

    @Test
    void a_configuration_that_was_changed_in_the_file_is_used_and_said() throws IOException {
        Path file = folder.resolve("span.csv");
        site.leat("export", "--machine", "jet-1", "--since", "2026-01-05", "-o", file.toString());
        Files.writeString(file, Files.readString(file).replace("advisory: 1.2 s", "advisory: 2 s"));

        Ran ran = leat("replay", "--json", file.toString());

        assertThat(ran.err()).contains("configuration in the file was changed");
        assertThat(MAPPER.readTree(ran.out()).get("startups").get(0).get("verdict").asText())
                .isEqualTo("good");
    }

    @Test
    void a_file_of_another_logger_is_judged_by_the_defaults_or_by_a_machine_of_the_site()
            throws IOException {
        Path file = folder.resolve("logger.csv");
        Played.of("demo", "jet-1").writeCsv(file);

        JsonNode defaults = json(leat("replay", "--json", file.toString()));
        Ran whose = leat("replay", "--json", "--site", site.file().toString(), file.toString());
        JsonNode under =
                json(
                        leat(
                                "replay",
                                "--json",
                                "--site",
                                site.file().toString(),
                                "--machine",
                                "jet-1",
                                file.toString()));

        assertThat(defaults.get("config_hash").isNull()).isTrue();
        assertThat(defaults.get("startups").get(0).get("t_s").asDouble()).isEqualTo(4.0);
        assertThat(defaults.get("startups").get(0).get("verdict").asText()).isEqualTo("good");
        assertThat(whose.code()).isEqualTo(2);
        assertThat(whose.err()).contains("--machine jet-1 or --machine jet-2");
        assertThat(under.get("startups").get(0).get("verdict").asText()).isEqualTo("slow");
    }

    @Test
    void columns_of_other_names_are_named_on_the_command_line() throws IOException {
        Path file = folder.resolve("logger.csv");
        Files.writeString(file, "Zeit;P in;P out\n01.02.2026 06:00:00,0;3,0;0,1\n");

        JsonNode json =
                json(
                        leat(
                                "replay",
                                "--json",
                                "--zone",
                                "Europe/Berlin",
                                "--column",
                                "time=Zeit",
                                "--column",
                                "inlet=P in:bar",
                                "--column",
                                "boosted=P out:bar",
                                file.toString()));

        assertThat(json.get("from").asText()).isEqualTo("2026-02-01T05:00:00Z");
        assertThat(json.get("counts").get("readings").get("inlet").asInt()).isEqualTo(1);
    }

    static List<List<String>> mistakes() {
        return List.of(
                List.of("replay"),
                List.of("replay", "none.csv"),
                List.of("replay", "pom.xml"),
                List.of("replay", "src"),
                List.of("replay", "--zone", "Mars", "pom.xml"),
                List.of("replay", "jet-1/1", "--start", "2"),
                List.of("replay", "--column", "outlet=P", "pom.xml"),
                List.of("replay", "--column", "inlet", "pom.xml"),
                List.of("export", "-o", "out.csv"),
                List.of("export", "jet-1/1"));
    }

    @ParameterizedTest
    @org.junit.jupiter.params.provider.MethodSource("mistakes")
    void a_mistake_in_words_or_file_ends_with_two_and_no_trace(List<String> words) {
        Ran ran = leat(words.toArray(String[]::new));

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).isNotBlank().doesNotContain("Exception", "\tat ");
        assertThat(ran.out()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "replay jet-1/99",
                "replay jet-9/1",
                "replay --machine jet-1 --since 2026-01-05 --report none.html --start 9",
                "replay jet-1/1 --report none.html --against jet-1/99",
                "replay --machine jet-9 --since 2h",
                "replay --machine jet-1 --since 2031-01-01",
                "export -o none.csv jet-1/99",
                "export -o none.csv --machine jet-9 --since 2h",
                "export -o none.csv --machine jet-1 --since 2031-01-01",
                "startups --machine jet-9",
                "backtest --machine jet-9 --set level.set=90psi",
                "backtest --since 2031-01-01 --set level.set=90psi",
                "alarms --history 77",
                "ack 77",
                "reset 77",
                "shelve 77 --for 8h --why x",
                "unshelve 77",
                "out-of-service 77 --why x",
                "service jet-9 on",
                "journal jet-9 text",
                "baseline --machine jet-9"
            })
    void what_is_not_there_ends_with_two_and_leaves_nothing_behind(String line) {
        String[] words = line.split(" ");

        Ran ran = site.leat(words[0], Arrays.copyOfRange(words, 1, words.length));

        assertThat(ran.err())
                .containsPattern("There is no |There are |there are |Nothing is stored");
        assertThat(ran.err().lines()).hasSize(1);
        assertThat(ran.code()).isEqualTo(2);
        assertThat(Path.of("none.html")).doesNotExist();
        assertThat(Path.of("none.csv")).doesNotExist();
    }

    @Test
    void what_is_not_there_is_told_in_one_line() {
        assertThat(site.leat("replay", "jet-1/99").err()).contains("There is no startup jet-1/99");
        assertThat(site.leat("replay", "1").err()).contains("jet-1/1 or jet-2/1");
        assertThat(site.leat("replay", "--machine", "jet-9", "--since", "2h").err())
                .contains("There is no machine jet-9");
        assertThat(site.leat("replay", "--machine", "jet-1", "--since", "2031-01-01").err())
                .contains("Nothing is stored of jet-1");
        assertThat(site.leat("replay", "--machine", "jet-1", "--since", "noon").err())
                .contains("'noon' is no time", "2h");
        assertThat(
                        site.leat(
                                        "replay",
                                        "--machine",
                                        "jet-1",
                                        "--since",
                                        "2026-01-06",
                                        "--until",
                                        "2026-01-05")
                                .err())
                .contains("before");
    }

    @Test
    void an_export_never_leaves_half_a_file_and_writes_over_none() throws IOException {
        Path file = folder.resolve("jet.csv");
        Files.writeString(file, "mine");

        Ran refused = site.leat("export", "jet-1/1", "-o", file.toString());
        Ran forced = site.leat("export", "jet-1/1", "--force", "-o", file.toString());
        Ran nowhere = site.leat("export", "jet-1/1", "-o", folder.resolve("no/jet.csv").toString());

        assertThat(refused.code()).isEqualTo(1);
        assertThat(refused.err()).contains("--force");
        assertThat(forced.code()).isZero();
        assertThat(Files.readString(file)).startsWith("# leat recording 1\n").contains("# end: ");
        assertThat(nowhere.code()).isEqualTo(1);
        assertThat(nowhere.err().lines()).hasSize(1);
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left.map(p -> p.getFileName().toString()))
                    .noneMatch(n -> n.endsWith(".part"));
        }
    }

    @Test
    void startups_are_filtered_by_time_and_verdict_and_sorted_by_slowness() throws IOException {
        JsonNode all = json(site.leat("startups", "--json")).get("startups");
        JsonNode slow = json(site.leat("startups", "--json", "--slow")).get("startups");
        JsonNode slowest = json(site.leat("startups", "--json", "--slowest", "2")).get("startups");
        JsonNode early =
                json(site.leat(
                                "startups",
                                "--json",
                                "--since",
                                "2026-01-05 06:00",
                                "--until",
                                "2026-01-05T06:01:00Z"))
                        .get("startups");

        assertThat(all.findValuesAsText("number"))
                .containsExactlyInAnyOrder("jet-1/1", "jet-2/1", "jet-2/2");
        assertThat(slow.findValuesAsText("verdict"))
                .isNotEmpty()
                .doesNotContain("good", "not_judged");
        assertThat(slowest).hasSize(2);
        assertThat(slowest.get(0).get("rise_s").asDouble())
                .isGreaterThanOrEqualTo(slowest.get(1).get("rise_s").asDouble());
        assertThat(early.findValuesAsText("number"))
                .containsExactlyInAnyOrder("jet-1/1", "jet-2/1");
    }

    @Test
    void startups_have_a_curve_and_are_written_as_csv() {
        Ran table = site.leat("startups", "--ascii", "--wide");
        Ran csv = site.leat("startups", "--csv", "--machine", "jet-2");

        assertThat(table.out()).contains("jet-1/1", "curve", "__");
        assertThat(csv.out().lines()).hasSize(3);
        assertThat(csv.out()).startsWith("number,machine,at,measured_at,base_psi,top_psi,");
        assertThat(csv.out().lines().skip(1)).allMatch(line -> line.startsWith("jet-2/"));
    }

    /**
     * In the order of storing, the last first; this store was written one machine after another.
     */
    @Test
    void startups_whose_alarm_nobody_acknowledged_are_listed_with_what_to_type_next()
            throws IOException {
        Ran table = site.leat("startups", "--unacknowledged");
        JsonNode json = json(site.leat("startups", "--unacknowledged", "--json"));

        assertThat(json.get("startups").findValuesAsText("number"))
                .containsExactly("jet-2/2", "jet-2/1", "jet-1/1");
        assertThat(table.out()).contains("jet-2/2", "leat ack NUMBER");
    }

    @Test
    void a_list_that_may_be_cut_says_so_and_one_that_is_whole_does_not() {
        assertThat(site.leat("startups", "--limit", "2").out()).contains("--limit 10 shows them");
        assertThat(site.leat("startups").out()).doesNotContain("There may be more");
        assertThat(site.leat("startups", "--slowest", "2").out())
                .doesNotContain("There may be more");
    }

    static List<List<String>> mistakesAboutStartups() {
        return List.of(
                List.of("There is no machine jet-9", "--machine", "jet-9"),
                List.of("not both", "--json", "--csv"),
                List.of("leave --limit out", "--slowest", "3", "--limit", "3"),
                List.of("must lie before", "--since", "2026-01-06", "--until", "2026-01-05"));
    }

    @ParameterizedTest
    @org.junit.jupiter.params.provider.MethodSource("mistakesAboutStartups")
    void a_mistake_about_startups_is_one_line_and_ends_with_two(List<String> mistake) {
        Ran ran = site.leat("startups", mistake.subList(1, mistake.size()).toArray(String[]::new));

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains(mistake.get(0));
        assertThat(ran.err().lines()).hasSize(1);
        assertThat(ran.out()).isEmpty();
    }
}
