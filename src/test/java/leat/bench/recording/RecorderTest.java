package leat.bench.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import leat.Gear;
import leat.bench.line.LineState;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioLoader;
import leat.bench.scenario.ScenarioRun;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RecorderTest {

    private static final LocalDateTime MONDAY = LocalDateTime.of(2026, 1, 5, 7, 0);

    @TempDir private Path folder;
    private Path file;
    private Path truth;

    @BeforeEach
    void name() {
        file = folder.resolve("out.csv");
        truth = folder.resolve("out.truth.csv");
    }

    private static Scenario named(String name) {
        return Catalogue.find(name).orElseThrow();
    }

    private Recorder.Done record(Scenario scenario, Duration length, double rate, double rest)
            throws IOException {
        Plan plan = new Plan(scenario, scenario.machineNames().get(0), MONDAY, length, rate, rest);
        return Recorder.record(plan, file, done -> true).orElseThrow();
    }

    private static List<String> rows(Path file) throws IOException {
        return Files.readAllLines(file).stream().skip(2).toList();
    }

    private static String[] start(Path truth, int number) throws IOException {
        return rows(truth).get(number).split(",", -1);
    }

    @ParameterizedTest
    @CsvSource({"demo, 20, 20", "worn-booster, 20, 1", "wear-over-weeks, 5, 1"})
    void the_same_plan_gives_the_same_bytes(String name, double rate, double rest)
            throws IOException {
        record(named(name), Duration.ofMinutes(Gear.of(4, 60)), rate, rest);
        byte[] first = Files.readAllBytes(file);
        byte[] firstTruth = Files.readAllBytes(truth);

        record(named(name), Duration.ofMinutes(Gear.of(4, 60)), rate, rest);

        assertThat(Files.readAllBytes(file)).isEqualTo(first);
        assertThat(Files.readAllBytes(truth)).isEqualTo(firstTruth);
    }

    @Test
    void another_seed_gives_other_bytes() throws IOException {
        record(named("demo"), Duration.ofSeconds(60), 20, 20);
        byte[] first = Files.readAllBytes(file);

        record(named("demo").withSeed(99), Duration.ofSeconds(60), 20, 20);

        assertThat(Files.readAllBytes(file)).isNotEqualTo(first);
    }

    @Test
    void rows_are_the_samples_of_the_run() throws IOException {
        List<Sample> samples =
                ScenarioRun.samples(named("demo"), 20)
                        .filter(sample -> sample.machine().equals("jet-1"))
                        .toList();

        Recorder.Done done = record(named("demo"), Duration.ofSeconds(92), 20, 20);

        List<String[]> rows = rows(file).stream().map(row -> row.split(",")).toList();
        assertThat(rows).hasSize(92 * 20);
        assertThat(done.rows()).isEqualTo(92 * 20);
        assertThat(IntStream.range(0, rows.size()))
                .allMatch(
                        i ->
                                near(rows.get(i)[1], samples.get(i).inletPsi())
                                        && near(rows.get(i)[2], samples.get(i).boostedPsi())
                                        && near(rows.get(i)[3], samples.get(i).filteredPsi()));
        assertThat(rows.get(81)[0]).isEqualTo("2026-01-05T07:00:04.050Z");
        assertThat(rows.get(81)[4]).isEqualTo("1");
        assertThat(rows.get(79)[4]).isEqualTo("0");
    }

    @Test
    void the_contact_of_the_jet_has_a_column_only_where_the_jet_is_ever_turned_off()
            throws Exception {
        record(named("demo"), Duration.ofSeconds(1), 20, 20);
        String usual = Files.readAllLines(file).get(1);

        record(withPause(), Duration.ofSeconds(20), 20, 20);

        List<String[]> rows = rows(file).stream().map(row -> row.split(",")).toList();
        assertThat(usual).endsWith(",running,valve");
        assertThat(Files.readAllLines(file).get(1)).isEqualTo(usual + ",cutting");
        assertThat(rows.get(11 * 20)[6]).isEqualTo("1");
        assertThat(rows.get(13 * 20)[6]).isEqualTo("0");
        assertThat(rows.get(16 * 20)[6]).isEqualTo("1");
        assertThat(rows.get(19 * 20)[6]).isEqualTo("0");
    }

    private static Scenario withPause() throws Exception {
        return ScenarioLoader.parse(
                "paused.yaml",
                """
                name: paused
                description: Jet on and off.
                expect: Nothing.
                seed: 1
                duration: 20 s
                machines:
                  jet-1:
                    timeline:
                      - { at: 1 s, do: start }
                      - { at: 12 s, do: pause }
                      - { at: 15 s, do: cut }
                      - { at: 18 s, do: stop }
                """);
    }

    private static boolean near(String cell, double psi) {
        return Math.abs(Double.parseDouble(cell) - psi) < 0.0006;
    }

    @Test
    void truth_of_a_healthy_start_is_what_the_line_was_made_to_do() throws IOException {
        record(named("healthy"), Duration.ofSeconds(80), 20, 20);

        String[] start = start(truth, 0);

        assertThat(start[1]).isEqualTo("2026-01-05T07:00:03Z");
        assertThat(Double.parseDouble(start[2])).isEqualTo(45.0);
        assertThat(Double.parseDouble(start[3])).isBetween(1.2, 1.4);
        assertThat(Double.parseDouble(start[5])).isCloseTo(0, within(0.01));
        assertThat(Double.parseDouble(start[6])).isCloseTo(100, within(2.0));
        assertThat(Double.parseDouble(start[7])).isCloseTo(100, within(0.5));
        assertThat(Double.parseDouble(start[10])).isBetween(2.4, 2.7);
        assertThat(start[11]).isEmpty();
    }

    /** A first-order rise takes ln 9 time constants from 10 to 90 %: IEEE Std 181's levels. */
    @Test
    void true_rise_is_that_of_the_curve_to_a_hundredth() {
        TruthMeter meter = new TruthMeter();
        meter.before(curve(-1));
        IntStream.rangeClosed(1, 3_000)
                .forEach(step -> meter.see(step * 10_000L, curve(step / 100.0), List::of));

        TrueStart start = meter.end(List::of).orElseThrow();

        double top = start.topPsi();
        double tau = 0.8;
        double exact = tau * (Math.log(1 - 0.1 * top / 100) - Math.log(1 - 0.9 * top / 100));
        assertThat(start.riseSeconds().orElseThrow()).isCloseTo(exact, within(0.001));
        assertThat(start.riseSeconds().orElseThrow()).isCloseTo(tau * Math.log(9), within(0.05));
        assertThat(start.levelPsi().orElseThrow()).isCloseTo(100, within(0.02));
        assertThat(start.ratio().orElseThrow()).isCloseTo(2.5, within(0.001));
    }

    private static LineState curve(double seconds) {
        double psi = seconds < 0 ? 0 : 100 * (1 - Math.exp(-seconds / 0.8));
        return new LineState(40, psi, psi, seconds >= 0, seconds >= 0);
    }

    @Test
    void truth_names_what_is_wrong_at_the_start_and_at_the_stop() throws Exception {
        Scenario scenario =
                ScenarioLoader.parse(
                        "two.yaml",
                        """
                        name: two
                        description: Two starts.
                        expect: Nothing in particular.
                        seed: 1
                        duration: 100 s
                        machines:
                          jet-1:
                            timeline:
                              - { at: 0 s, do: start }
                              - { at: 10 s, fault: worn-booster, severity: 0.5 }
                              - { at: 20 s, do: stop }
                              - { at: 50 s, do: start }
                              - { at: 60 s, fault: offset, tap: inlet, psi: -2 }
                        """);

        Recorder.Done done = record(scenario, Duration.ofSeconds(100), 20, 20);

        assertThat(done.starts()).isEqualTo(2);
        assertThat(start(truth, 0)[11]).isEmpty();
        assertThat(start(truth, 0)[12]).isEqualTo("worn-booster 0.500");
        assertThat(Double.parseDouble(start(truth, 0)[8])).isCloseTo(42, within(0.5));
        assertThat(start(truth, 1)[11]).isEqualTo("worn-booster 0.500");
        assertThat(start(truth, 1)[12]).isEqualTo("worn-booster 0.500; offset inlet -2.000 psi");
        assertThat(Double.parseDouble(start(truth, 1)[2])).isCloseTo(50, within(0.06));
    }

    @Test
    void a_start_without_a_level_has_no_rise_to_it_in_the_truth() throws IOException {
        record(named("water-shut"), Duration.ofSeconds(40), 20, 20);

        assertThat(start(truth, 0)[4]).isEmpty();
        assertThat(start(truth, 0)[10]).isEmpty();
        assertThat(start(truth, 0)[11]).isEqualTo("water-shut");
    }

    @Test
    void rows_are_left_out_at_rest_only_and_no_second_is_without_one() throws IOException {
        Scenario scenario = named(Gear.isThorough() ? "healthy-weeks" : "air-after-service");
        Duration length = Duration.ofMinutes(Gear.of(15, 90));
        record(scenario, length, 5, 5);
        List<String> all = rows(file);

        record(scenario, length, 5, 1);

        List<String> thin = rows(file);
        assertThat(new HashSet<>(all).containsAll(thin)).isTrue();
        assertThat(thin.size()).isLessThan(all.size() * 3 / 4);
        assertThat(thin.stream().filter(row -> row.endsWith(",1,1")).count())
                .isEqualTo(all.stream().filter(row -> row.endsWith(",1,1")).count());
        List<Instant> times =
                thin.stream()
                        .map(row -> Instant.parse(row.substring(0, row.indexOf(','))))
                        .toList();
        assertThat(IntStream.range(1, times.size()))
                .allMatch(i -> Duration.between(times.get(i - 1), times.get(i)).toMillis() <= 1000);
    }

    @Test
    void a_failed_loop_is_written_as_no_pressure_that_a_line_can_have() throws IOException {
        record(named("broken-loop"), Duration.ofSeconds(90), 20, 20);
        String broken = rows(file).get(40 * 20).split(",")[2];

        record(named("shorted-loop"), Duration.ofSeconds(90), 20, 20);

        assertThat(broken).isEqualTo("-50.000");
        assertThat(rows(file).get(40 * 20).split(",")[2]).isEqualTo("999.000");
    }

    @Tag(Gear.THOROUGH)
    @Test
    void starts_by_the_day_come_on_the_days_and_in_the_hours_of_the_shift() throws IOException {
        Recorder.Done done = record(named("healthy-weeks"), Duration.ofHours(Gear.of(1, 10)), 1, 1);

        assertThat(done.starts()).isEqualTo(Gear.of(1, 10));
        assertThat(rows(truth)).allMatch(row -> row.split(",")[1].startsWith("2026-01-05T"));
    }

    @Test
    void given_up_half_way_it_leaves_no_file() throws IOException {
        Plan plan = new Plan(named("healthy"), "jet-1", MONDAY, Duration.ofDays(7), 20, 20);

        Optional<Recorder.Done> done =
                Recorder.record(plan, file, progress -> progress.starts() < 3);

        assertThat(done).isEmpty();
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).isEmpty();
        }
    }

    @Test
    void a_folder_that_is_not_there_leaves_nothing_and_says_so() {
        Path nowhere = folder.resolve("no").resolve("out.csv");
        Plan plan = new Plan(named("demo"), "jet-1", MONDAY, Duration.ofSeconds(10), 20, 20);

        assertThatThrownBy(() -> Recorder.record(plan, nowhere, done -> true))
                .isInstanceOf(IOException.class);
    }

    @Test
    void a_plan_that_cannot_be_is_refused_in_words() {
        assertThatThrownBy(
                        () -> new Plan(named("demo"), "jet-7", MONDAY, Duration.ofDays(1), 20, 20))
                .hasMessage("jet-7 is no machine of it; there are [jet-1, jet-2]");
        assertThatThrownBy(
                        () -> new Plan(named("demo"), "jet-1", MONDAY, Duration.ofDays(1), 20, 0.2))
                .hasMessage("the rate at rest is 0.2, allowed is 1 to 20.0");
    }
}
