package leat.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.bench.line.Fault;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Defect;
import leat.bench.scenario.Event;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioException;
import leat.bench.scenario.ScenarioLoader;
import leat.bench.sensor.SensorFault;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The catalogue of the bench is whole. */
class ReadmeTest {

    private static String readme() throws IOException {
        return Files.readString(Path.of("simulators", "README.md"));
    }

    static List<String> faults() {
        Stream<String> ofLine = Stream.of(Fault.values()).map(Fault::key);
        Stream<String> ofSensor = Stream.of(SensorFault.values()).map(SensorFault::key);
        return Stream.of(ofLine, ofSensor, Stream.of("swapped")).flatMap(keys -> keys).toList();
    }

    @ParameterizedTest
    @MethodSource("faults")
    void each_fault_has_a_row_in_the_catalogue(String fault) throws IOException {
        assertThat(readme().lines()).anyMatch(line -> line.startsWith("| `" + fault + "`"));
    }

    @ParameterizedTest
    @MethodSource("faults")
    void each_fault_is_played_by_a_scenario(String fault) {
        assertThat(Catalogue.all().stream().flatMap(ReadmeTest::struck))
                .anyMatch(words -> words.split(" ")[0].equals(fault));
    }

    private static Stream<String> struck(Scenario scenario) {
        return scenario.machines().stream()
                .flatMap(machine -> machine.timeline().stream())
                .map(Event::action)
                .filter(Event.Strike.class::isInstance)
                .map(action -> ((Event.Strike) action).defect())
                .map((Defect defect) -> defect.words(1));
    }

    @Test
    void the_example_of_a_scenario_file_is_one() throws IOException, ScenarioException {
        String section = readme().split("## Scenario files\\R")[1].split("\\R\\R")[0];
        String text = section.lines().map(String::stripTrailing).collect(Collectors.joining("\n"));

        Scenario scenario = ScenarioLoader.parse("README.md", text.stripIndent());

        assertThat(scenario.machines().get(0).timeline()).hasSize(10);
    }

    @Test
    void each_scenario_with_a_fault_says_what_it_shows_and_how_to_tell_it_apart() {
        List<Scenario> silent =
                Catalogue.all().stream()
                        .filter(scenario -> struck(scenario).findAny().isPresent())
                        .filter(scenario -> !scenario.name().equals("demo"))
                        .filter(
                                scenario ->
                                        scenario.guide().shows().isBlank()
                                                || scenario.guide().apart().isBlank())
                        .toList();

        assertThat(silent).isEmpty();
    }
}
