package leat.replay;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;
import leat.Gear;
import leat.acquire.recording.ColumnNames;
import leat.acquire.recording.Recording;
import leat.alarm.AlarmState;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.MachineScript;
import leat.bench.scenario.Scenario;
import leat.phase.PhaseReason;
import leat.report.SchemaFile;
import leat.rule.Grade;
import leat.rule.JudgedRun;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.rule.RunVerdict;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ReplayTest {

    private static final ReplayJson JSON =
            new ReplayJson(Optional.empty(), OptionalLong.of(Played.START));

    @TempDir Path folder;
    private final Map<String, Played> played = new HashMap<>();

    static List<Arguments> machines() {
        List<Arguments> machines = new ArrayList<>();
        for (Scenario scenario : Catalogue.all()) {
            for (MachineScript script : scenario.machines()) {
                if (!scenario.isLong()) {
                    machines.add(Arguments.of(scenario.name(), script.machine()));
                }
            }
        }
        return Gear.everyNth(4, machines);
    }

    /** Solved once for all tests. */
    private Played played(String scenario, String machine) {
        return played.computeIfAbsent(
                scenario + " " + machine, key -> Played.of(scenario, machine));
    }

    @ParameterizedTest(name = "{0} {1}")
    @MethodSource("machines")
    void a_csv_file_of_a_signal_gives_what_the_signal_itself_gives(String scenario, String machine)
            throws IOException {
        Path file = folder.resolve("played.csv");
        Played played = played(scenario, machine);
        played.writeCsv(file);
        Recording recording = Recording.open(file, ColumnNames.OWN, Optional.empty());

        Replayed fromFile = Replay.of(Played.settings(machine), recording::read);

        Replayed direct =
                Replay.of(
                        Played.settings(machine),
                        into -> played.inputs(Played.START).forEach(into));
        assertThat(fromFile).isEqualTo(direct);
        assertThat(JSON.write(fromFile)).isEqualTo(JSON.write(direct));
        assertThat(fromFile.all(Outcome.PhaseChanged.class)).isNotEmpty();
    }

    @ParameterizedTest(name = "{0} {1}")
    @MethodSource("machines")
    void what_is_kept_is_what_the_watch_says(String scenario, String machine) {
        List<Input> inputs = played(scenario, machine).inputs(Played.START);

        Replayed replayed = Replay.of(Played.settings(machine), inputs::forEach);

        List<Outcome> said = new ArrayList<>();
        Watch watch = new Watch(Played.settings(machine));
        inputs.forEach(input -> watch.feed(input, said::add));
        assertThat(replayed.startups())
                .hasSizeGreaterThanOrEqualTo(
                        (int)
                                said.stream()
                                        .filter(o -> o instanceof Outcome.StartupMeasured)
                                        .count());
        assertThat(replayed.alarms().stream().mapToLong(a -> a.changes().size()).sum())
                .isEqualTo(said.stream().filter(o -> o instanceof Outcome.AlarmChanged).count());
        assertThat(replayed.counts().inputs()).isEqualTo(inputs.size());
        assertThat(replayed.counts().samples())
                .isEqualTo(inputs.stream().filter(i -> i instanceof Reading).count());
    }

    @Test
    void the_worn_booster_of_the_demo_is_found_with_its_grades() {
        List<Input> inputs = Played.of("demo", "jet-2").inputs(Played.START);

        Replayed replayed = Replay.of(Played.settings("jet-2"), inputs::forEach);

        assertThat(replayed.startups())
                .extracting(s -> s.verdict().outcome())
                .containsExactly(StartupVerdict.Outcome.GOOD, StartupVerdict.Outcome.NO_BOOST);
        AlarmLife ratio = replayed.alarms().get(0);
        assertThat(ratio.gravest().rule()).isEqualTo(Rule.RATIO);
        assertThat(ratio.grade()).isEqualTo(Grade.CRITICAL);
        assertThat(ratio.first().finding().grade()).isEqualTo(Grade.WARNING);
        assertThat(ratio.returned()).isEmpty();
    }

    @Test
    void the_end_of_a_recording_closes_what_is_open() {
        List<Input> inputs = Played.of("healthy", "jet-1").inputs(Played.START);
        int steady = inputs.size() * 3 / 4;

        Replayed cut = Replay.of(Played.settings("jet-1"), inputs.subList(0, steady)::forEach);

        assertThat(cut.all(Outcome.SteadyMeasured.class)).isNotEmpty();
        List<Outcome.PhaseChanged> phases = cut.all(Outcome.PhaseChanged.class);
        assertThat(phases.get(phases.size() - 1).change().reason())
                .isIn(PhaseReason.INLET_LOST, PhaseReason.BOOSTED_LOST);
        assertThat(cut.toMicros()).isEqualTo(inputs.get(steady - 1).atMicros());
    }

    @Test
    void run_that_lasts_at_the_end_is_judged_as_far_as_it_came() {
        List<Input> inputs = Played.of("worn-booster", "jet-1").inputs(Played.START);

        Replayed cut =
                Replay.of(
                        Played.settings("jet-1"),
                        inputs.subList(0, inputs.size() * 2 / 5)::forEach);

        assertThat(cut.all(Outcome.RunJudged.class)).isEmpty();
        JudgedRun run = cut.atEnd().startups().get(0).run().orElseThrow();
        assertThat(run.run().over()).isFalse();
        assertThat(run.verdict().mark()).isEqualTo(RunVerdict.Mark.WARNING);
        assertThat(run.run().endedAtMicros()).isBetween(cut.toMicros() - 1_000_000, cut.toMicros());
    }

    @Test
    void a_past_of_nothing_is_an_account_of_nothing() {
        Replayed nothing = Replay.of(Played.settings("jet-1"), into -> {});

        assertThat(nothing.startups()).isEmpty();
        assertThat(nothing.counts().inputs()).isZero();
    }

    @Test
    void gaps_bad_and_late_readings_are_counted() {
        long at = Played.START;
        List<Input> inputs =
                List.of(
                        Reading.good(Channel.INLET, at, 40),
                        Reading.good(Channel.INLET, at, 41),
                        Reading.good(Channel.INLET, at + 4_000_000, 42),
                        Reading.bad(Channel.INLET, at + 4_050_000, leat.signal.Quality.LOOP_BROKEN),
                        new Reading(
                                Channel.BOOSTED,
                                at + 4_050_000,
                                -2.4,
                                leat.signal.Quality.LOOP_BELOW_BAND));

        Counts counts = Replay.of(Played.settings("jet-1"), inputs::forEach).counts();

        assertThat(counts)
                .isEqualTo(
                        new Counts(
                                5,
                                Map.of(Channel.INLET, 4L, Channel.BOOSTED, 1L),
                                1,
                                1,
                                1,
                                0,
                                0,
                                1,
                                4_000_000));
    }

    @ParameterizedTest(name = "{0} {1}")
    @MethodSource("machines")
    void the_json_is_as_its_schema_says_and_has_no_field_that_it_does_not_tell(
            String scenario, String machine) throws IOException {
        List<Input> inputs = new ArrayList<>(played(scenario, machine).inputs(Played.START));
        long end = inputs.get(inputs.size() - 1).atMicros();
        inputs.add(new Instruction(end, "Kim", new Order.Acknowledge("no such alarm")));
        WatchSettings settings =
                new WatchSettings(
                        machine, Played.WIRED, Limits.with(Map.of(Limit.RISE_WARNING, 4.5)));

        JsonNode json =
                new ObjectMapper().readTree(JSON.write(Replay.of(settings, inputs::forEach)));

        assertThat(SchemaFile.read("replay.schema.json").problems(json)).isEmpty();
        assertThat(json.get("refused")).hasSize(1);
        assertThat(json.get("limits_changed").get("rise.warning").asDouble()).isEqualTo(4.5);
    }

    @Test
    void the_schema_knows_every_rule_and_every_state_of_an_alarm() throws IOException {
        SchemaFile schema = SchemaFile.read("replay.schema.json");

        assertThat(schema.words("/properties/alarms/items/properties/rule/enum"))
                .containsExactlyInAnyOrderElementsOf(
                        Stream.of(Rule.values()).map(Rule::key).toList());
        assertThat(schema.words("/properties/alarms/items/properties/state/enum"))
                .containsExactlyElementsOf(
                        Stream.of(AlarmState.values()).map(AlarmState::key).toList());
    }

    @Test
    void the_same_replay_gives_the_same_bytes() throws IOException {
        Path file = folder.resolve("played.csv");
        Played.of("demo", "jet-2").writeCsv(file);

        List<String> written = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            Recording recording = Recording.open(file, ColumnNames.OWN, Optional.empty());
            written.add(JSON.write(Replay.of(Played.settings("jet-2"), recording::read)));
        }

        assertThat(written.get(1)).isEqualTo(written.get(0));
        assertThat(Files.size(file)).isPositive();
    }

    @Test
    void a_clock_that_was_set_forward_is_no_gap() {
        long at = Played.START;
        List<Input> inputs =
                List.of(
                        Reading.good(Channel.INLET, at, 40),
                        new ClockStep(at + 600_000_000, at + 50_000),
                        Reading.good(Channel.INLET, at + 600_000_000, 40));

        Counts counts = Replay.of(Played.settings("jet-1"), inputs::forEach).counts();

        assertThat(counts.gaps()).isZero();
    }
}
