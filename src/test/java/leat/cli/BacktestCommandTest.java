package leat.cli;

import static leat.cli.Ran.leat;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Backtests of what two machines left in two weeks, under two configurations. */
class BacktestCommandTest {

    private static final long MONDAY = StoredSite.SIX;
    private static final long WEEK = 7 * 86_400_000_000L;
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
        stored =
                StoredSite.in(lived, "rise: { warning: 5 s }")
                        .saw("jet-1", StoredSite.pressures("demo", "jet-1", MONDAY))
                        .saw("jet-2", StoredSite.pressures("demo", "jet-2", MONDAY))
                        .startAgain("rise: { warning: 4 s }", MONDAY + WEEK)
                        .saw("jet-1", StoredSite.pressures("worn-booster", "jet-1", MONDAY + WEEK));
    }

    private Ran backtest(String... words) {
        return site.leat("backtest", words);
    }

    private JsonNode json(String... words) throws IOException {
        return site.json("backtest", words);
    }

    @Test
    void all_machines_over_the_whole_history_where_nothing_else_is_said() throws IOException {
        JsonNode json = json("--json", "--set", "ratio.warning=1.3");

        assertThat(json.get("machines").findValuesAsText("machine"))
                .containsExactly("jet-1", "jet-2");
        assertThat(json.get("machines").get(0).get("from").asText()).startsWith("2026-01-05T06:00");
        assertThat(json.get("machines").get(0).get("to").asText()).startsWith("2026-01-12T06:");
        assertThat(json.get("set").get("ratio.warning").asDouble()).isEqualTo(1.3);
        assertThat(json.get("changes").findValuesAsText("kind")).contains("gone");
    }

    @Test
    void counts_per_week_rule_and_grade_are_those_of_the_listed_alarms() throws IOException {
        JsonNode json = json("--json", "--set", "ratio.warning=1.3");

        assertThat(json.get("weeks").findValuesAsText("week"))
                .contains("2026-W02", "2026-W03")
                .isSorted();
        assertThat(sum(json.get("weeks"), "before")).isEqualTo(json.get("alarms_before").asInt());
        assertThat(sum(json.get("weeks"), "after")).isEqualTo(json.get("alarms_after").asInt());
        assertThat(sum(json.get("machines"), "alarms_before"))
                .isEqualTo(json.get("alarms_before").asInt())
                .isPositive();
        assertThat(json.get("changes").findValues("before").stream().filter(b -> !b.isNull()))
                .hasSize(json.get("alarms_before").asInt());
    }

    /** As each run has stored its text until who is told got words of its own. */
    @Test
    void runs_whose_stored_text_still_has_routes_are_judged_as_they_were_then() throws Exception {
        JsonNode now = json("--json", "--set", "ratio.warning=1.3");
        try (Connection db = DriverManager.getConnection("jdbc:sqlite:" + site.database());
                Statement statement = db.createStatement()) {
            int changed =
                    statement.executeUpdate(
                            "UPDATE config SET text = substr(text, 1, instr(text, 'tell:') - 1)"
                                    + " || 'routes: { log: { log: { at_least: ADVISORY } } }'");
            assertThat(changed).isEqualTo(2);
        }

        JsonNode before = json("--json", "--set", "ratio.warning=1.3");
        Ran replay = site.leat("replay", "jet-1/1");

        assertThat(before).isEqualTo(now);
        assertThat(replay.code()).isZero();
        assertThat(replay.out() + replay.err()).doesNotContain("cannot be read");
    }

    private static int sum(JsonNode rows, String field) {
        int sum = 0;
        for (JsonNode row : rows) {
            sum += row.get(field).asInt();
        }
        return sum;
    }

    @Test
    void a_span_of_one_machine_is_judged_alone() throws IOException {
        JsonNode json =
                json(
                        "--json",
                        "--machine",
                        "jet-1",
                        "--since",
                        "2026-01-12",
                        "--set",
                        "ratio.warning=1.3");

        assertThat(json.get("machines")).hasSize(1);
        assertThat(json.get("machines").get(0).get("configurations").asInt()).isEqualTo(1);
        assertThat(json.get("weeks").findValuesAsText("week")).containsOnly("2026-W03");
    }

    @Test
    void as_it_is_means_the_limits_of_today_also_for_a_time_of_others() throws IOException {
        JsonNode machine = json("--json", "--set", "rise.warning=3.5s").get("machines").get(0);

        assertThat(machine.get("limits_from").asText()).isEqualTo("site");
        assertThat(machine.get("configurations").asInt()).isEqualTo(2);
        assertThat(machine.get("limits_before").get("rise.warning").asDouble()).isEqualTo(4);
        assertThat(machine.get("limits_after").get("rise.warning").asDouble()).isEqualTo(3.5);
        assertThat(backtest("--wide", "--set", "rise.warning=3.5s").out())
                .contains(
                        "As it is: by the limits of today's site.yaml; in that time leat ran under 2"
                                + " configurations.",
                        "Changed: rise.warning from 4 s to 3.5 s.");
    }

    @Test
    void says_how_often_each_route_would_have_called_somebody() throws IOException {
        JsonNode json = json("--json", "--set", "ratio.warning=1.3");

        JsonNode log = json.get("routes").get(0);
        JsonNode before = log.get("before");
        assertThat(json.get("routes").findValuesAsText("route")).containsExactly("log");
        assertThat(before.get("calls").asInt())
                .isGreaterThanOrEqualTo(json.get("alarms_before").asInt())
                .isGreaterThan(log.get("after").get("calls").asInt());
        assertThat(backtest("--set", "ratio.warning=1.3").out())
                .contains("route ", "calls as it is", "changed");
    }

    @Test
    void without_a_site_the_limits_of_the_last_run_hold() throws IOException {
        Ran ran =
                leat(
                        "backtest",
                        "--store",
                        site.database().toString(),
                        "--json",
                        "--set",
                        "rise.warning=3.5s");

        JsonNode machine = MAPPER.readTree(ran.out()).get("machines").get(0);
        assertThat(machine.get("limits_from").asText()).isEqualTo("last_run");
        assertThat(machine.get("limits_before").get("rise.warning").asDouble()).isEqualTo(4);
    }

    @Test
    void a_table_lists_what_changes_and_counts_per_week_machine_and_all() {
        Ran ran = backtest("--set", "ratio.warning=1.3");

        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("jet-1: 2026-01-05", "jet-2: 2026-01-05", "All 2 machines")
                .contains("week", "2026-W02  2026-01-05", "2026-W03  2026-01-12")
                .contains("gone", "under the changed limits", "new, ");
        assertThat(ran.out().lines()).allMatch(line -> line.length() < 150);
    }

    @Test
    void limits_that_are_so_already_change_nothing_and_that_is_said() {
        Ran ran = backtest("--machine", "jet-2", "--set", "rise.warning=4s");

        assertThat(ran.out())
                .contains("these are the limits as they are")
                .contains("Every alarm would have come as it is.")
                .doesNotContain("All 2 machines");
    }

    @Test
    void nothing_that_is_stored_is_touched() throws SQLException {
        List<String> before = rows();

        backtest("--set", "ratio.warning=1.3");

        assertThat(before).hasSizeGreaterThan(1_000).anyMatch(row -> row.startsWith("alarm|"));
        assertThat(rows()).isEqualTo(before);
    }

    /** Every row of every table. */
    private List<String> rows() throws SQLException {
        List<String> rows = new ArrayList<>();
        try (Connection connection =
                DriverManager.getConnection("jdbc:sqlite:" + site.database())) {
            for (String table :
                    column(connection, "SELECT name FROM sqlite_schema WHERE type = 'table'")) {
                column(connection, "SELECT * FROM " + table + " ORDER BY 1, 2")
                        .forEach(row -> rows.add(table + "|" + row));
            }
        }
        return rows;
    }

    private static List<String> column(Connection connection, String sql) throws SQLException {
        List<String> rows = new ArrayList<>();
        try (Statement statement = connection.createStatement();
                ResultSet answer = statement.executeQuery(sql)) {
            int columns = answer.getMetaData().getColumnCount();
            while (answer.next()) {
                StringBuilder row = new StringBuilder(String.valueOf(answer.getObject(1)));
                for (int i = 2; i <= columns; i++) {
                    row.append('|').append(answer.getString(i));
                }
                rows.add(row.toString());
            }
        }
        return rows;
    }

    static List<List<String>> mistakes() {
        return List.of(
                List.of(
                        "There is no machine jet-9",
                        "--machine",
                        "jet-9",
                        "--set",
                        "level.set=90psi"),
                List.of("Did you mean rise.warning?", "--set", "rise.waning=4s"),
                List.of("has no unit", "--set", "rise.warning=4"),
                List.of("must not be above rise.critical", "--set", "rise.warning=13s"),
                List.of(
                        "Nothing is stored in that time",
                        "--since",
                        "2031-01-01",
                        "--set",
                        "level.set=90psi"),
                List.of(
                        "Nothing is stored of jet-2 in",
                        "--machine",
                        "jet-2",
                        "--since",
                        "2026-01-12",
                        "--set",
                        "level.set=90psi"),
                List.of(
                        "must lie before",
                        "--since",
                        "2026-01-12",
                        "--until",
                        "2026-01-11",
                        "--set",
                        "level.set=90psi"),
                List.of("'noon' is no time", "--since", "noon", "--set", "level.set=90psi"));
    }

    @ParameterizedTest
    @MethodSource("mistakes")
    void a_mistake_is_one_line_and_ends_with_two(List<String> mistake) {
        Ran ran = backtest(mistake.subList(1, mistake.size()).toArray(String[]::new));

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains(mistake.get(0));
        assertThat(ran.err().lines()).hasSize(1);
        assertThat(ran.out()).isEmpty();
    }

    @Test
    void limits_are_looked_at_beside_those_of_the_site_and_not_the_defaults() throws IOException {
        String text = Files.readString(site.file());
        Files.writeString(
                site.file(), text.replace("rise: { warning: 4 s }", "rise: { critical: 20 s }"));

        assertThat(backtest("--set", "rise.warning=15s").code()).isZero();
        assertThat(backtest("--set", "rise.warning=21s").err())
                .contains("must not be above rise.critical (20.0)");
    }
}
