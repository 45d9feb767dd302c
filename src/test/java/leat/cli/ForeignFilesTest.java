package leat.cli;

import static leat.cli.Ran.leat;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a person types to have a logger's file judged, and what comes of it. */
class ForeignFilesTest {

    private static final double PSI_PER_BAR = 14.5038;

    @TempDir static Path recorded;
    private static List<String> rows;

    @TempDir Path folder;
    private Path file;

    @BeforeAll
    static void record() throws IOException {
        Path healthy = recorded.resolve("healthy.csv");
        leat("simulate", "healthy", "--record", healthy.toString());
        rows = Files.readAllLines(healthy).stream().filter(row -> row.startsWith("2")).toList();
    }

    @BeforeEach
    void name() {
        file = folder.resolve("log.csv");
    }

    private static double psi(String[] row, int column) {
        return Double.parseDouble(row[column]);
    }

    private static String bar(double psi) {
        return String.format(java.util.Locale.ROOT, "%.3f", psi / PSI_PER_BAR);
    }

    /** The file of one gauge, in bar, with a state of the machine by codes. */
    private void writeBoostedInBar() throws IOException {
        List<String> lines = new ArrayList<>(List.of("when,P out,state"));
        for (String line : rows) {
            String[] row = line.split(",");
            lines.add(row[0] + "," + bar(psi(row, 2)) + "," + (row[4].equals("1") ? "16" : "3"));
        }
        Files.write(file, lines);
    }

    /** The file of a logger that looks once a second and writes what has changed by 1 psi. */
    private void writeOnChange() throws IOException {
        List<String> lines = new ArrayList<>(List.of("time,inlet_psi,boosted_psi"));
        double[] written = {Double.NaN, Double.NaN};
        for (int i = 0; i < rows.size(); i += 20) {
            String[] row = rows.get(i).split(",");
            String[] cells = {row[0], "", ""};
            for (int channel = 0; channel < 2; channel++) {
                double psi = psi(row, channel + 1);
                if (!(Math.abs(psi - written[channel]) < 1)) {
                    written[channel] = psi;
                    cells[channel + 1] = row[channel + 1];
                }
            }
            if (Arrays.stream(cells).skip(1).anyMatch(cell -> !cell.isEmpty())) {
                lines.add(String.join(",", cells));
            }
        }
        Files.write(file, lines);
    }

    private static JsonNode json(Ran ran) throws IOException {
        return new ObjectMapper().readTree(ran.out());
    }

    @Test
    void one_gauge_in_bar_with_codes_is_judged_and_answered_in_bar() throws IOException {
        writeBoostedInBar();
        String[] columns = {
            "--column", "time=when", "--column", "boosted=P out:bar", "--column", "running=state:16"
        };

        Ran text = leat(with(columns, "replay", "--ascii", file.toString()));
        JsonNode start = json(leat(with(columns, "replay", "--json", file.toString())));

        assertThat(text.code()).isZero();
        assertThat(text.out().replaceAll("\\R +", " "))
                .contains(
                        "No inlet gauge: the boost over the inlet",
                        "bar   boosted #",
                        "rise good",
                        "should be at most 0.34 bar",
                        "- (no inlet gauge)",
                        "No alarm was raised.")
                .doesNotContain(" psi", "inlet o", "inlet low");
        assertThat(start.get("startups")).hasSize(1);
        assertThat(start.findValue("top_psi").asDouble()).isBetween(102.0, 106.0);
        assertThat(start.findValue("loaded_psi").asDouble()).isBetween(98.0, 102.0);
        assertThat(start.findValue("dead_time_s").isNumber()).isTrue();
    }

    private static String[] with(String[] columns, String... words) {
        List<String> all = new ArrayList<>(List.of(words));
        all.addAll(List.of(columns));
        return all.toArray(String[]::new);
    }

    @Test
    void every_mistake_of_a_command_line_and_its_file_is_told_at_once() throws IOException {
        Files.writeString(file, "when;P out;state\n1;2;lauft\n");

        Ran ran =
                leat(
                        "replay",
                        file.toString(),
                        "--column",
                        "boosted=P out:atm",
                        "--column",
                        "running=state");

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err().lines().map(line -> line.replace(file.toString(), "f")))
                .hasSize(4)
                .anyMatch(line -> line.startsWith("f:1: no column holds the time"))
                .anyMatch(line -> line.startsWith("f:1: column 2: 'atm' is no unit"))
                .anyMatch(line -> line.startsWith("f:2: column 3: running 'lauft'"))
                .last()
                .asString()
                .startsWith("Nothing was judged.");
    }

    @Test
    void a_log_written_on_change_is_silent_without_hold_and_told_of_it() throws IOException {
        writeOnChange();

        Ran ran = leat("replay", file.toString());

        assertThat(ran.out().replaceAll("\\R +", " "))
                .containsPattern("channel .*silent")
                .contains("say how long a value holds: --hold 10s");
    }

    @Test
    void a_log_written_on_change_is_judged_with_hold_and_its_rise_never_too_sharp()
            throws IOException {
        writeOnChange();

        JsonNode told = json(leat("replay", file.toString(), "--json", "--hold", "60s"));

        assertThat(told.get("alarms")).isEmpty();
        assertThat(told.get("startups")).hasSize(1);
        assertThat(told.findValue("rise_s").isNumber()).isFalse();
        assertThat(told.findValue("top_psi").asDouble()).isBetween(98.0, 103.0);
    }

    @Test
    void a_time_to_hold_is_refused_where_it_makes_no_sense() throws IOException {
        writeOnChange();

        Ran hour = leat("replay", file.toString(), "--hold", "soon");

        assertThat(hour.code()).isEqualTo(2);
        assertThat(hour.err()).contains("--hold: 'soon' cannot be used. Allowed are 1s to 1d");
    }

    @Test
    void a_machine_with_one_gauge_is_checked_listed_exported_and_read_back() throws IOException {
        StoredSite site = StoredSite.boostedAlone(folder);
        site.saw(
                "jet-1",
                StoredSite.pressures("healthy", "jet-1", StoredSite.SIX).stream()
                        .filter(input -> !isInlet(input))
                        .toList());

        Ran check = leat("check", site.file().toString());
        Ran list = site.leat("startups");
        Ran live = site.leat("replay", "--json", "--machine", "jet-1", "--since", "2026-01-05");
        site.leat("export", "--machine", "jet-1", "--since", "2026-01-05", "-o", file.toString());
        Ran file = leat("replay", "--json", this.file.toString());

        assertThat(check.out()).contains("jet-1: [boosted from cabinet-1]", "No inlet gauge: ");
        assertThat(list.out()).contains("  good  ", "No inlet gauge: jet-1.");
        assertThat(Files.readAllLines(this.file)).contains("time,boosted_psi,event");
        assertThat(json(file)).isEqualTo(json(live));
        assertThat(json(live).get("startups")).hasSize(1);
    }

    private static boolean isInlet(leat.signal.Input input) {
        return input instanceof leat.signal.Reading reading
                && reading.channel() == leat.signal.Channel.INLET;
    }
}
