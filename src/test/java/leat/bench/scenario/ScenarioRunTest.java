package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.Duration;
import java.util.List;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import leat.Gear;
import leat.bench.line.LineSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What each scenario shows at the gauges is common practice, no source. */
class ScenarioRunTest {

    private static final double HZ = 20;

    /** Those made for a recording of weeks are too long to be played twice here. */
    static List<String> names() {
        return Gear.everyNth(
                9,
                Catalogue.all().stream()
                        .filter(scenario -> !scenario.isLong())
                        .map(Scenario::name)
                        .toList());
    }

    private static List<Sample> play(String name, String machine, double from, double to) {
        Predicate<Sample> wanted =
                sample ->
                        sample.machine().equals(machine)
                                && sample.seconds() >= from
                                && sample.seconds() < to;
        Scenario scenario = Catalogue.find(name).orElseThrow();
        return ScenarioRun.samples(scenario, HZ).filter(wanted).toList();
    }

    private static double mean(List<Sample> samples, ToDoubleFunction<Sample> figure) {
        return samples.stream().mapToDouble(figure).average().orElseThrow();
    }

    @ParameterizedTest
    @MethodSource("names")
    void same_scenario_gives_the_same_samples_every_time(String name) {
        Scenario scenario = Catalogue.find(name).orElseThrow();

        List<Sample> first = ScenarioRun.samples(scenario, HZ).toList();
        List<Sample> second = ScenarioRun.samples(scenario, HZ).toList();

        assertThat(second).isEqualTo(first);
        assertThat(first)
                .hasSize((int) (scenario.duration().toSeconds() * HZ) * scenario.machines().size());
    }

    @Test
    void a_machine_does_the_same_whether_the_others_are_played_or_not() {
        Scenario scenario =
                Catalogue.all().stream()
                        .filter(each -> each.machines().size() > 1)
                        .findFirst()
                        .orElseThrow();
        String last = scenario.machineNames().get(scenario.machines().size() - 1);

        ScenarioRun alone = new ScenarioRun(scenario, HZ, ScenarioRun.USUAL_START, List.of(last));
        List<Sample> first = alone.next();

        assertThat(first).isEqualTo(play(scenario.name(), last, 0, 1).subList(0, first.size()));
    }

    @Test
    void each_pass_of_a_loop_begins_with_the_jet_on() {
        List<Event> timeline =
                List.of(
                        new Event(Duration.ZERO, new Event.Start()),
                        new Event(Duration.ofSeconds(10), new Event.Pause()));
        Scenario loop =
                new Scenario(
                        "loop",
                        "",
                        "",
                        1,
                        Duration.ofSeconds(12),
                        true,
                        List.of(new MachineScript("jet-1", LineSettings.USUAL, timeline)));

        List<Sample> samples = ScenarioRun.samples(loop, 1, Duration.ofSeconds(24)).toList();

        assertThat(samples.get(11).cutting()).isFalse();
        assertThat(samples.get(20).cutting()).isTrue();
    }

    @Test
    void another_seed_gives_another_noise() {
        Scenario healthy = Catalogue.find("healthy").orElseThrow();
        Scenario other =
                new Scenario("other", "", "", 99, healthy.duration(), false, healthy.machines());

        List<Sample> seeded = ScenarioRun.samples(healthy, HZ, Duration.ofSeconds(2)).toList();
        List<Sample> reseeded = ScenarioRun.samples(other, HZ, Duration.ofSeconds(2)).toList();

        assertThat(reseeded).isNotEqualTo(seeded);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 7, 20, 50, 1000})
    void samples_come_at_the_rate_that_was_asked_for(double hz) {
        Scenario demo = Catalogue.find("demo").orElseThrow();

        List<Sample> samples =
                ScenarioRun.samples(demo, hz, Duration.ofSeconds(5))
                        .filter(sample -> sample.machine().equals("jet-2"))
                        .toList();

        assertThat(samples).hasSizeBetween((int) (5 * hz), (int) (5 * hz) + 1);
        assertThat(samples.get(0).micros()).isZero();
        assertThat(samples.get(1).micros()).isEqualTo(Math.round(1e6 / hz));
        assertThat(samples.get(samples.size() - 1).running()).isTrue();
    }

    @Test
    void rate_out_of_range_is_refused() {
        Scenario demo = Catalogue.find("demo").orElseThrow();

        assertThatIllegalArgumentException().isThrownBy(() -> new ScenarioRun(demo, 0));
    }

    @Test
    void looped_scenario_begins_again_and_is_never_over() {
        Scenario worn = Catalogue.find("worn-booster").orElseThrow();
        Duration threeLaps = worn.duration().multipliedBy(3);

        List<Sample> samples = ScenarioRun.samples(worn, HZ, threeLaps).toList();

        List<Double> starts =
                samples.stream()
                        .filter(sample -> sample.running())
                        .map(sample -> Math.floor(sample.seconds() / 100))
                        .distinct()
                        .toList();
        assertThat(starts).containsExactly(0.0, 1.0, 2.0);
        assertThat(samples.get((int) (250 * HZ)).boostedPsi()).isBetween(64.0, 78.0);
    }

    @Test
    void each_pass_begins_with_a_sound_machine_at_rest() throws ScenarioException {
        Scenario scenario =
                ScenarioLoader.parse(
                        "wreck.yaml",
                        """
                        name: wreck
                        description: Left as bad as can be.
                        expect: Sound again at the next pass.
                        seed: 3
                        duration: 40 s
                        loop: true
                        machines:
                          jet-1:
                            timeline:
                              - { at: 15 s, do: start }
                              - { at: 30 s, fault: weak-supply, severity: 0.8 }
                              - { at: 30 s, fault: broken-loop, tap: inlet }
                        """);

        List<Sample> samples = ScenarioRun.samples(scenario, 1, Duration.ofSeconds(56)).toList();

        assertThat(samples.get(39).inletCounts()).isZero();
        assertThat(samples.get(39).running()).isTrue();
        assertThat(samples.get(54).inletPsi()).isBetween(40.0, 44.0);
        assertThat(samples.get(54).running()).isFalse();
        assertThat(samples.get(54).boostedPsi()).isBetween(-1.5, 1.5);
    }

    @Test
    void scenario_without_loop_ends_and_then_stands_still() {
        ScenarioRun run = new ScenarioRun(Catalogue.find("demo").orElseThrow(), HZ);
        int samples = 0;
        while (!run.isOver()) {
            run.next();
            samples++;
        }

        List<Sample> after = run.next();

        assertThat(samples).isEqualTo((int) (92 * HZ));
        assertThat(after.get(1).running()).isTrue();
    }

    @Test
    void demo_shows_a_healthy_start_then_a_leaking_valve() {
        List<Sample> steady = play("demo", "jet-1", 19, 33);
        List<Sample> rest = play("demo", "jet-1", 56, 92);
        List<Sample> start = play("demo", "jet-1", 4, 7);

        assertThat(mean(play("demo", "jet-1", 0, 4), Sample::boostedPsi)).isBetween(-0.3, 0.3);
        assertThat(start.get(start.size() - 1).boostedPsi()).isGreaterThan(95);
        assertThat(mean(steady, Sample::boostedPsi)).isBetween(95.0, 105.0);
        assertThat(mean(steady, Sample::boostedPsi) / mean(steady, Sample::inletPsi))
                .isBetween(2.3, 2.7);
        double share = mean(rest, Sample::boostedPsi) / mean(rest, Sample::inletPsi);
        assertThat(share).isBetween(0.55, 0.65);
    }

    @Test
    void demo_shows_a_worn_booster_then_one_that_does_not_turn() {
        List<Sample> worn = play("demo", "jet-2", 18, 53);
        List<Sample> standing = play("demo", "jet-2", 80, 92);
        List<Sample> between = play("demo", "jet-2", 64, 65);

        double ratio = mean(worn, Sample::boostedPsi) / mean(worn, Sample::inletPsi);
        assertThat(ratio).isBetween(1.65, 1.85);
        assertThat(mean(worn, Sample::boostedPsi)).isBetween(68.0, 77.0);
        assertThat(mean(between, Sample::boostedPsi)).isLessThan(4);
        assertThat(mean(standing, Sample::boostedPsi) / mean(standing, Sample::inletPsi))
                .isBetween(0.93, 1.0);
        assertThat(standing).allMatch(Sample::running);
    }

    @Test
    void broken_loop_reads_nothing_until_it_is_mended() {
        List<Sample> broken = play("broken-loop", "jet-1", 25, 55);
        List<Sample> mended = play("broken-loop", "jet-1", 55, 75);

        assertThat(broken).allMatch(sample -> sample.boostedCounts() == 0);
        assertThat(broken).allMatch(sample -> sample.inletCounts() > 700);
        assertThat(mean(mended, Sample::boostedPsi)).isBetween(97.0, 102.0);
    }

    @Test
    void starved_inlet_stands_at_the_clamp_and_not_below_the_band() {
        List<Sample> starved = play("water-shut", "jet-1", 7, 34);

        assertThat(starved).allMatch(sample -> sample.inletCounts() * 20.5 / 4095 >= 3.8);
        assertThat(mean(starved, Sample::inletPsi)).isBetween(-2.5, -2.0);
        assertThat(mean(starved, Sample::boostedPsi)).isBetween(0.0, 6.0);
    }

    @Test
    void levels_of_the_other_scenarios_are_as_their_files_say() {
        assertThat(mean(play("set-too-high", "jet-1", 15, 100), Sample::boostedPsi))
                .isBetween(122.0, 127.0);
        assertThat(mean(play("set-too-high", "jet-2", 15, 100), Sample::boostedPsi))
                .isBetween(146.0, 152.0);
        assertThat(mean(play("weak-supply", "jet-1", 35, 60), Sample::inletPsi))
                .isBetween(17.0, 24.0);
        assertThat(mean(play("weak-supply", "jet-1", 70, 95), Sample::inletPsi))
                .isBetween(10.5, 14.0);
        assertThat(mean(play("leaking-valve-near-inlet", "jet-1", 50, 85), Sample::boostedPsi))
                .isBetween(37.0, 42.0);
        assertThat(mean(play("not-turning", "jet-1", 20, 50), Sample::boostedPsi))
                .isBetween(37.0, 42.0);
    }
}
