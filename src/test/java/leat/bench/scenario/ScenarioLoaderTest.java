package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalTime;
import java.util.EnumSet;
import java.util.List;
import leat.bench.line.BoosterKind;
import leat.bench.line.Fault;
import leat.bench.line.House;
import leat.bench.line.InletTap;
import leat.bench.line.RegulatorKind;
import leat.bench.sensor.Loop;
import leat.bench.sensor.SensorFault;
import leat.bench.sensor.Tap;
import leat.bench.sensor.Transducer;
import leat.files.OddFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ScenarioLoaderTest {

    private static final String GOOD =
            """
            name: mixed
            description: Some of everything.
            expect: Nothing in particular.
            seed: 5
            duration: 2 min
            loop: true
            machines:
              jet-1:
                supply: 44.5 psi
                timeline:
                  - { at: 9 s, do: stop }
                  - { at: 6 s, do: pause }
                  - { at: 7 s, do: cut }
                  - { at: 0 s, do: start }
                  - { at: 1500 ms, fault: worn-booster, severity: 0.5 }
                  - { at: 2 s, fault: not-turning }
                  - { at: 3 s, repair: not-turning }
                  - { at: 4 s, fault: broken-loop, tap: inlet }
                  - { at: 5 s, repair: broken-loop, tap: inlet }
              jet-2:
                timeline: []
            """;

    @Test
    void everything_that_a_file_can_say_is_read() throws ScenarioException {
        Scenario scenario = ScenarioLoader.parse("mixed.yaml", GOOD);

        assertThat(scenario.name()).isEqualTo("mixed");
        assertThat(scenario.seed()).isEqualTo(5);
        assertThat(scenario.duration()).isEqualTo(Duration.ofMinutes(2));
        assertThat(scenario.loop()).isTrue();
        assertThat(scenario.machineNames()).containsExactly("jet-1", "jet-2");
        assertThat(scenario.machines().get(0).line().supplyPsi()).isEqualTo(44.5);
        assertThat(scenario.machines().get(0).timeline())
                .containsExactly(
                        new Event(Duration.ZERO, new Event.Start()),
                        new Event(
                                Duration.ofMillis(1500), new Event.Strike(Fault.WORN_BOOSTER, 0.5)),
                        new Event(Duration.ofSeconds(2), new Event.Strike(Fault.NOT_TURNING, 1)),
                        new Event(Duration.ofSeconds(3), new Event.Repair(Fault.NOT_TURNING)),
                        new Event(
                                Duration.ofSeconds(4),
                                new Event.Strike(Tap.INLET, SensorFault.BROKEN_LOOP, 1)),
                        new Event(
                                Duration.ofSeconds(5),
                                new Event.Repair(Tap.INLET, SensorFault.BROKEN_LOOP)),
                        new Event(Duration.ofSeconds(6), new Event.Pause()),
                        new Event(Duration.ofSeconds(7), new Event.Cut()),
                        new Event(Duration.ofSeconds(9), new Event.Stop()));
    }

    @Test
    void every_mistake_is_reported_in_one_go_with_its_line() {
        String text =
                """
                name: bad
                description: Wrong in many places.
                expect: Refused.
                seed: many
                duration: 60 s
                loops: true
                machines:
                  jet-1:
                    supply: 500 psi
                    timeline:
                      - { at: 3, do: start }
                      - { at: 3 s, do: begin }
                      - { at: 3 s, fault: worn-boster, severity: 0.5 }
                      - { at: 3 s, fault: worn-booster }
                      - { at: 3 s, fault: worn-booster, severity: 1.5 }
                      - { at: 3 s, fault: not-turning, severity: 0.5 }
                      - { at: 70 s, do: stop }
                      - { at: 3 s }
                      - { at: 3 s, fault: broken-loop, tap: outlet }
                """;

        ScenarioException refused =
                catchThrowableOfType(
                        ScenarioException.class, () -> ScenarioLoader.parse("bad.yaml", text));

        assertThat(refused.problems())
                .satisfiesExactlyInAnyOrder(
                        p -> assertThat(p).startsWith("bad.yaml:4: seed is \"many\""),
                        p -> assertThat(p).startsWith("bad.yaml:6: unknown key \"loops\""),
                        p -> assertThat(p).startsWith("bad.yaml:9: supply is 500 psi, allowed"),
                        p -> assertThat(p).startsWith("bad.yaml:11: at is \"3\", expected"),
                        p -> assertThat(p).startsWith("bad.yaml:12: do is \"begin\", allowed"),
                        p -> assertThat(p).startsWith("bad.yaml:13: fault is \"worn-boster\""),
                        p -> assertThat(p).startsWith("bad.yaml:14: severity is missing"),
                        p -> assertThat(p).startsWith("bad.yaml:15: severity is 1.5, allowed"),
                        p -> assertThat(p).startsWith("bad.yaml:16: not-turning has no severity"),
                        p -> assertThat(p).startsWith("bad.yaml:17: this event comes after"),
                        p -> assertThat(p).startsWith("bad.yaml:18: an event needs exactly one"),
                        p -> assertThat(p).startsWith("bad.yaml:19: tap is \"outlet\", allowed"));
    }

    @Test
    void the_settings_of_a_machine_are_read() throws ScenarioException {
        String text =
                """
                name: weeks
                description: A month.
                shows: This.
                apart: That.
                expect: Nothing.
                seed: 5
                duration: 4 w
                publishing: { every: 2 s, jitter: 500 ms, lost: 5 % }
                machines:
                  jet-1:
                    booster: centrifugal
                    regulator: differential
                    inlet_tap: behind-valve
                    draw: 9 L/min
                    water: 5 C
                    house: { wander: 6 psi, dips_per_hour: 4, dip: 5 psi, dip_lasts: 10 s }
                    starts: { per_day: 8, run: 15 min, from: 06:30, to: 14:00, days: mon-sat }
                    transducers:
                      bits: 16
                      top: 22 mA
                      noise: 0.2 psi
                      inlet: { range: 100 psi, lag: 100 ms }
                    timeline:
                      - { at: 1 w, fault: worn-booster, severity: 0.1 to 0.8, over: 3 w, growth: exponential }
                      - { at: 2 d, fault: span, tap: boosted, percent: -2.5 }
                      - { at: 12 h, fault: swapped }
                """;

        Scenario scenario = ScenarioLoader.parse("weeks.yaml", text);

        MachineScript jet1 = scenario.machines().get(0);
        assertThat(scenario.duration()).isEqualTo(Duration.ofDays(28));
        assertThat(scenario.guide()).isEqualTo(new Guide("This.", "That.", "Nothing."));
        assertThat(scenario.publishing())
                .isEqualTo(new Publishing(Duration.ofSeconds(2), Duration.ofMillis(500), 5));
        assertThat(jet1.line().build().booster()).isEqualTo(BoosterKind.CENTRIFUGAL);
        assertThat(jet1.line().build().regulator()).isEqualTo(RegulatorKind.DIFFERENTIAL);
        assertThat(jet1.line().build().inletTap()).isEqualTo(InletTap.BEHIND_VALVE);
        assertThat(jet1.line().build().drawLitresPerMinute()).isEqualTo(9);
        assertThat(jet1.line().build().waterCelsius()).isEqualTo(5);
        assertThat(jet1.line().build().house()).isEqualTo(new House(0.5, 6, 4, 5, 10));
        assertThat(jet1.starts())
                .contains(
                        new Starts(
                                8,
                                Duration.ofMinutes(15),
                                LocalTime.of(6, 30),
                                LocalTime.of(14, 0),
                                EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.SATURDAY)));
        assertThat(jet1.transducers().inlet())
                .isEqualTo(new Transducer(new Loop(100, 16, 22), 0.1, 0.2));
        assertThat(jet1.transducers().boosted())
                .isEqualTo(new Transducer(new Loop(200, 16, 22), 0.04, 0.2));
        assertThat(jet1.timeline())
                .containsExactly(
                        new Event(
                                Duration.ofHours(12),
                                new Event.Strike(new Defect.Swapped(), Course.steady(1))),
                        new Event(
                                Duration.ofDays(2),
                                new Event.Strike(Tap.BOOSTED, SensorFault.SPAN, -2.5)),
                        new Event(
                                Duration.ofDays(7),
                                new Event.Strike(
                                        new Defect.OfLine(Fault.WORN_BOOSTER),
                                        new Course(
                                                0.1,
                                                0.8,
                                                Duration.ofDays(21),
                                                Course.Growth.EXPONENTIAL))));
    }

    @Test
    void every_mistake_in_the_settings_of_a_machine_has_its_line() {
        String text =
                """
                name: bad
                description: Wrong in many places.
                expect: Refused.
                seed: 1
                duration: 1 d
                publishing: { every: 1 ms, lost: 10 }
                machines:
                  jet-1:
                    house: { wander: 30 psi, dips_per_hour: 2.5 }
                    starts: { per_day: 100, run: 20 min, from: 7 am, days: monday }
                    transducers: { bits: 14, inlet: { top: 22 mA } }
                    timeline:
                      - { at: 3 s, fault: offset, psi: 3 }
                      - { at: 3 s, fault: offset, tap: inlet, severity: 0.5 }
                      - { at: 3 s, fault: swapped, tap: inlet }
                      - { at: 3 s, fault: worn-booster, severity: 0.1 to 0.8 }
                      - { at: 3 s, fault: worn-booster, severity: 0 to 0.8, over: 1 h, growth: exponential }
                      - { at: 3 s, fault: worn-booster, severity: 0.5, over: 1 h }
                      - { at: 3 s, fault: worn-booster, severity: 0.1 to 0.5, over: 1 h, growth: fast }
                      - { at: 3 s, fault: stuck, tap: boosted, over: 1 h }
                  jet-2:
                    starts: { per_day: 100, run: 20 min }
                    regulator: none
                    inlet_tap: before
                """;

        ScenarioException refused =
                catchThrowableOfType(
                        ScenarioException.class, () -> ScenarioLoader.parse("bad.yaml", text));

        assertThat(refused.problems())
                .satisfiesExactlyInAnyOrder(
                        p -> assertThat(p).startsWith("bad.yaml:6: every is 1 ms, allowed is 0.05"),
                        p -> assertThat(p).startsWith("bad.yaml:6: lost is \"10\", expected"),
                        p -> assertThat(p).startsWith("bad.yaml:9: wander is 30 psi, allowed"),
                        p -> assertThat(p).startsWith("bad.yaml:9: dips_per_hour is 2.5, expected"),
                        p -> assertThat(p).startsWith("bad.yaml:10: from is \"7 am\", expected"),
                        p -> assertThat(p).startsWith("bad.yaml:10: days is \"monday\", expected"),
                        p -> assertThat(p).startsWith("bad.yaml:11: bits is 14, allowed"),
                        p -> assertThat(p).startsWith("bad.yaml:13: tap is missing"),
                        p -> assertThat(p).startsWith("bad.yaml:14: offset has no severity"),
                        p -> assertThat(p).startsWith("bad.yaml:14: psi is missing"),
                        p -> assertThat(p).startsWith("bad.yaml:15: swapped has no tap"),
                        p -> assertThat(p).startsWith("bad.yaml:16: over is missing"),
                        p -> assertThat(p).startsWith("bad.yaml:17: exponential growth needs"),
                        p -> assertThat(p).startsWith("bad.yaml:18: over needs a size that grows"),
                        p -> assertThat(p).startsWith("bad.yaml:19: growth is \"fast\", allowed"),
                        p -> assertThat(p).startsWith("bad.yaml:20: stuck does not grow"),
                        p -> assertThat(p).startsWith("bad.yaml:22: 100 runs of 1200 s do not fit"),
                        p ->
                                assertThat(p)
                                        .isEqualTo(
                                                "bad.yaml:23: regulator is \"none\", allowed are"
                                                        + " gauge, differential"),
                        p ->
                                assertThat(p)
                                        .isEqualTo(
                                                "bad.yaml:24: inlet_tap is \"before\", allowed"
                                                        + " are before-valve, behind-valve"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "[", "- 1", "machines: 3", "a: b: c", "name: x\nname: y", "\u0001", "~"})
    void what_is_no_scenario_is_refused_with_a_place(String text) {
        ScenarioException refused =
                catchThrowableOfType(
                        ScenarioException.class, () -> ScenarioLoader.parse("odd.yaml", text));

        assertThat(refused.problems()).isNotEmpty().allMatch(p -> p.matches("odd.yaml:\\d+: .*"));
    }

    @Test
    void a_file_is_named_in_the_message(@TempDir Path folder) throws Exception {
        Path file = Files.writeString(folder.resolve("mine.yaml"), "name: mine\n");

        ScenarioException refused =
                catchThrowableOfType(ScenarioException.class, () -> ScenarioLoader.load(file));

        assertThat(refused.getMessage()).contains("mine.yaml:1: description is missing");
    }

    @Test
    @Timeout(value = 20, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void what_never_ends_is_no_scenario(@TempDir Path folder) throws Exception {
        Path pipe = OddFiles.pipe(folder.resolve("pipe"));
        Path large = Files.writeString(folder.resolve("large.yaml"), "#".repeat((1 << 20) + 1));

        for (Path file : List.of(pipe, large, OddFiles.ZEROS)) {
            ScenarioException e =
                    catchThrowableOfType(ScenarioException.class, () -> ScenarioLoader.load(file));

            assertThat(e).as("%s", file).hasMessageStartingWith(file + ": this ");
        }
    }
}
