package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class CatalogueTest {

    @Test
    void catalogue_lists_each_file_of_the_folder() throws IOException {
        List<String> files;
        try (Stream<Path> folder = Files.list(Path.of("simulators", "scenarios"))) {
            files = folder.map(file -> file.getFileName().toString()).toList();
        }

        List<String> listed = Catalogue.names().stream().map(name -> name + ".yaml").toList();

        assertThat(listed).containsExactlyInAnyOrderElementsOf(files);
    }

    @Test
    void each_packaged_scenario_is_read_and_bears_its_name() {
        List<Scenario> scenarios = Catalogue.all();

        assertThat(scenarios.stream().map(Scenario::name)).isEqualTo(Catalogue.names());
        assertThat(scenarios).noneMatch(scenario -> scenario.description().isBlank());
        assertThat(scenarios).noneMatch(scenario -> scenario.expect().isBlank());
    }

    @Test
    void unknown_name_finds_nothing() {
        assertThat(Catalogue.find("../healthy")).isEmpty();
    }
}
