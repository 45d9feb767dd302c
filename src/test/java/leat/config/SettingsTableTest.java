package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import leat.rule.Limit;
import org.junit.jupiter.api.Test;

/**
 * After a change of settings: {@code mvn test -Dtest='SettingsTableTest,SiteSchemaTest'
 * -Dleat.regenerate=true}.
 */
class SettingsTableTest {

    private static final Path PAGE = Path.of("config", "settings.md");
    private static final String FROM = "<!-- settings -->\n";
    private static final String TO = "<!-- /settings -->";

    @Test
    void the_page_holds_exactly_these_tables() throws IOException {
        String page = Files.readString(PAGE).replace("\r\n", "\n");
        int from = page.indexOf(FROM) + FROM.length();
        int to = page.indexOf(TO);
        if (Boolean.getBoolean("leat.regenerate")) {
            Files.writeString(
                    PAGE, page.substring(0, from) + SettingsTable.markdown() + page.substring(to));
            page = Files.readString(PAGE);
            to = page.indexOf(TO);
        }

        assertThat(page.substring(from, to)).isEqualTo(SettingsTable.markdown());
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
                                    + limit.origin().words());
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
        assertThat(SettingsTable.markdown().lines().filter(line -> line.startsWith("|")))
                .allMatch(row -> row.replace("\\|", "").chars().filter(c -> c == '|').count() == 8);
    }
}
