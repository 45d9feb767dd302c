package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
    private static final Path README = Path.of("README.md");
    private static final String FROM = "<!-- settings -->\n";
    private static final String TO = "<!-- /settings -->";

    @Test
    void the_readme_holds_exactly_this_table() throws IOException {
        String readme = Files.readString(README).replace("\r\n", "\n");
        int from = readme.indexOf(FROM) + FROM.length();
        int to = readme.indexOf(TO);
        if (Boolean.getBoolean("leat.regenerate")) {
            Files.writeString(
                    README,
                    readme.substring(0, from) + SettingsTable.markdown() + readme.substring(to));
            readme = Files.readString(README);
            to = readme.indexOf(TO);
        }

        assertThat(readme.substring(from, to)).isEqualTo(SettingsTable.markdown());
    }

    @Test
    void every_limit_has_its_row_with_default_range_and_origin() {
        String table = SettingsTable.markdown();

        for (Limit limit : Limit.values()) {
            assertThat(table)
                    .containsPattern(
                            "\\| `limits\\."
                                    + limit.key().replace(".", "\\.")
                                    + "` \\|[^\n]*"
                                    + ENGLISH.say("origin." + limit.origin().key()));
        }
        assertThat(table)
                .contains(
                        "| `limits.level.set` | psi, bar, kPa | `100 psi` | 10 psi | 200 psi |",
                        "| `limits.rest.falling` | psi/s, bar/s, kPa/s | `0.1 psi/s` | 0.001 psi/s | 10 psi/s |",
                        "| `limits.rise.warning` | ms, s, min, h, d | `6 s` | 100 ms | 2 min |",
                        "| `limits.rest.bleeds` | yes, no | `yes` |  |  |",
                        "| `connections.<connection>.modbus_tcp.poll` | ms, s, min, h, d | `50 ms` | 10 ms | 10 s |",
                        "| `machines.<machine>.channels.{inlet,boosted,filtered}.from` |");
    }

    @Test
    void every_row_has_as_many_cells_as_the_head() {
        assertThat(SettingsTable.markdown().lines())
                .allMatch(row -> row.replace("\\|", "").chars().filter(c -> c == '|').count() == 8);
    }
}
