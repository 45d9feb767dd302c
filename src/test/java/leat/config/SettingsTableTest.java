package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import leat.rule.Limit;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.Test;

/**
 * After a change of settings: {@code mvn test -Dtest='SettingsTableTest,SiteSchemaTest'
 * -Dleat.regenerate=true}.
 */
class SettingsTableTest {

    private static final Phrases ENGLISH = Phrases.in(Language.ENGLISH);
    private static final Path PAGE = Path.of("config", "settings.md");

    @Test
    void the_page_of_settings_is_exactly_this_one() throws IOException {
        if (Boolean.getBoolean("leat.regenerate")) {
            Files.writeString(PAGE, SettingsTable.markdown());
        }

        assertThat(Files.readString(PAGE).replace("\r\n", "\n"))
                .isEqualTo(SettingsTable.markdown());
    }

    @Test
    void every_limit_has_its_row_with_default_range_and_origin() {
        List<SettingsGroup> groups = SettingsReference.groups();

        for (Limit limit : Limit.values()) {
            String origin = ENGLISH.say("origin." + limit.origin().key());
            assertThat(rows(groups, "limits." + limit.key()))
                    .singleElement()
                    .matches(setting -> setting.origin().equals(origin))
                    .matches(setting -> setting.fallback().isPresent());
        }
    }

    private static List<Setting> rows(List<SettingsGroup> groups, String path) {
        return groups.stream()
                .flatMap(
                        group ->
                                group.settings().stream()
                                        .filter(s -> path.equals(group.name() + "." + s.name())))
                .toList();
    }

    @Test
    void rows_tell_units_ranges_words_and_where_the_same_keys_stand() {
        assertThat(SettingsTable.markdown())
                .contains(
                        "| `set` | `100 psi` | 10 psi to 200 psi (psi, bar, kPa) |",
                        "| `falling` | `0.1 psi/s` | 0.001 psi/s to 10 psi/s (psi/s, bar/s, kPa/s) |",
                        "| `warning` | `6 s` | 100 ms to 2 min (ms, s, min, h, d) |",
                        "| `bleeds` | `yes` | yes, no |",
                        "| `poll` | `50 ms` | 10 ms to 10 s (ms, s, min, h, d) |",
                        "| `name` | required | text | the site's name, for people |",
                        "| `register` | one of register, topic | keys below |",
                        "| `limits` | none | keys as under limits |",
                        "## `machines.<machine>.channels.{inlet,boosted,filtered}`");
    }

    @Test
    void no_key_that_the_loader_reads_is_missing() {
        TreeSet<String> told = new TreeSet<>();
        for (SettingsGroup group : SettingsReference.groups()) {
            told.addAll(List.of(group.path().split("[.,{}]")));
            group.settings().forEach(s -> told.addAll(List.of(s.name().split("[.\\[\\]]+"))));
        }
        TreeSet<String> declared = new TreeSet<>();
        collect(SiteSchema.schema(), declared);

        assertThat(told).containsAll(declared);
    }

    private static void collect(JsonNode schema, TreeSet<String> names) {
        schema.path("properties").fieldNames().forEachRemaining(names::add);
        schema.forEach(below -> collect(below, names));
    }

    @Test
    void every_row_has_as_many_cells_as_the_head() {
        assertThat(SettingsTable.markdown().lines().filter(line -> line.startsWith("|")))
                .allMatch(
                        row -> {
                            long bars =
                                    row.replace("\\|", "").chars().filter(c -> c == '|').count();
                            return bars == 6 || bars == 3;
                        });
    }
}
