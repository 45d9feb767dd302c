package leat.cli;

import static leat.cli.Ran.leat;
import static org.assertj.core.api.Assertions.assertThat;

import leat.config.Setting;
import leat.config.SettingsTable;
import org.junit.jupiter.api.Test;

class SettingsCommandTest {

    @Test
    void every_setting_is_shown_within_eighty_columns() {
        Ran ran = leat("settings");

        assertThat(ran.code()).isZero();
        assertThat(ran.out().lines()).allMatch(line -> line.length() <= 80);
        assertThat(ran.out().lines().filter(line -> !line.startsWith(" ")))
                .containsExactlyElementsOf(
                        SettingsTable.groups().values().stream()
                                .flatMap(group -> group.stream().map(Setting::path))
                                .toList());
    }

    @Test
    void a_group_shows_default_range_meaning_and_origin_and_nothing_else() {
        Ran ran = leat("settings", "store");

        assertThat(ran.out().lines()).allMatch(line -> line.matches("store.*|    .*"));
        assertThat(ran.out())
                .contains(
                        """
                        store.keep_samples
                            ms, s, min, h, d; default 30 d; 1 h to 3650 d (leat's own choice)
                            age at which samples are deleted; startups, alarms and the journal stay
                        """);
    }

    @Test
    void an_unknown_group_is_refused_with_the_names_of_all() {
        Ran ran = leat("settings", "limit");

        assertThat(ran.code()).isEqualTo(Main.WRONG);
        assertThat(ran.err())
                .contains("There is no group limit; known are site, store, connections, limits,");
    }

    @Test
    void what_a_setting_says_of_itself_is_kept_whole() {
        String shown = leat("settings").out().replaceAll("\\s+", " ");

        for (Setting setting : SettingsTable.groups().get("limits")) {
            assertThat(shown).contains(setting.meaning()).contains(setting.origin());
        }
    }
}
