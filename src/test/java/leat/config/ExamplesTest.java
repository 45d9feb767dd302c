package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import leat.rule.Limits;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ExamplesTest {

    private static final Path FOLDER = Path.of("config");

    static List<Path> examples() throws IOException {
        try (Stream<Path> files = Files.list(FOLDER)) {
            return files.filter(f -> f.toString().endsWith(".yaml")).sorted().toList();
        }
    }

    @Test
    void there_is_an_example_for_each_way_to_the_field() throws IOException {
        assertThat(examples())
                .extracting(f -> f.getFileName().toString())
                .contains("boatyard-modbus.yaml", "boatyard-mqtt.yaml");
    }

    @ParameterizedTest
    @MethodSource("examples")
    void every_example_loads_without_a_problem_or_a_doubt(Path example) {
        LoadedSite loaded = SiteFile.load(example, name -> Optional.of("s3cret"));

        assertThat(loaded.problems()).isEmpty();
        assertThat(loaded.warnings()).isEmpty();
        assertThat(loaded.site().orElseThrow().machines())
                .extracting(MachineSettings::name)
                .containsExactly("jet-1", "jet-2");
    }

    @Test
    void the_modbus_example_is_judged_by_the_defaults() {
        Site site =
                SiteFile.load(FOLDER.resolve("boatyard-modbus.yaml"), name -> Optional.empty())
                        .site()
                        .orElseThrow();

        assertThat(site.machines())
                .allMatch(m -> m.limits().changed().equals(Limits.DEFAULTS.changed()));
    }

    @Test
    void who_is_told_in_the_page_of_messages_loads_as_it_stands_there() throws IOException {
        String page = Files.readString(Path.of("src/docs/messages.md"));
        List<String> shown =
                Pattern.compile("```yaml\n(.*?)```", Pattern.DOTALL)
                        .matcher(page)
                        .results()
                        .map(found -> found.group(1))
                        .toList();

        String site = GoodSite.TEXT.substring(0, GoodSite.TEXT.indexOf("tell:"));
        LoadedSite loaded = SiteFile.archived(site + String.join("", shown));

        assertThat(shown).hasSize(2);
        assertThat(loaded.problems()).isEmpty();
        assertThat(loaded.site().orElseThrow().routes())
                .extracting(RouteSettings::name)
                .contains("log", "hall", "maintenance", "office", "siren", "night-shift");
    }

    /** What the example shows commented out must work when the # is taken away. */
    @Test
    void the_contacts_of_the_modbus_example_load_once_they_are_uncommented() throws IOException {
        String text = Files.readString(FOLDER.resolve("boatyard-modbus.yaml"));
        String uncommented =
                text.replaceAll(
                        "(?m)^(      )# (running:|valve:|  from:|  register:|  inverted:)", "$1$2");

        Site site = GoodSite.site(uncommented);

        assertThat(site.machines().get(0).channels()).hasSize(4);
    }
}
