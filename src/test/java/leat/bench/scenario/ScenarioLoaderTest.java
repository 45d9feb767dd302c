package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import leat.bench.line.Fault;
import leat.bench.sensor.SensorFault;
import leat.bench.sensor.Tap;
import org.junit.jupiter.api.Test;
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
}
