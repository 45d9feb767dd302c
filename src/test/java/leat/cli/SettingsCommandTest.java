package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SettingsCommandTest {

    @Test
    void a_setting_is_told_with_default_range_meaning_and_origin() {
        Ran ran = Ran.leat("settings", "limits.rise");

        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains(
                        """
                        limits.rise: limits on the climb of a startup
                          advisory: 3 s; 100 ms to 2 min (ms, s, min, h, d)
                              10-90 % rise from rest that is slow [common practice, no published source]
                        """);
    }

    @ParameterizedTest
    @CsvSource({
        "rise, limits.rise:, limits.level:",
        "limits, limits.level:, tell",
        "mail, tell.<route>.by.mail:, tell.<route>.by.log:",
        "boosted, 'machines.<machine>.channels.{inlet,boosted,filtered}:', limits",
        "connections.mqtt, connections.<connection>.mqtt:, tell.<route>.by.mqtt:"
    })
    void a_group_goes_by_any_keys_of_its_path_that_stand_together(
            String group, String told, String untold) {
        Ran ran = Ran.leat("settings", group);

        assertThat(ran.code()).isZero();
        assertThat(ran.out().lines()).anyMatch(line -> line.startsWith(told));
        assertThat(ran.out().lines()).noneMatch(line -> line.startsWith(untold));
    }

    @Test
    void all_are_told_within_80_columns_and_then_the_names_of_the_groups() {
        Ran ran = Ran.leat("settings");

        assertThat(ran.code()).isZero();
        assertThat(ran.out().lines()).allMatch(line -> line.length() <= 80);
        assertThat(ran.out()).contains("keep_samples: 365 d", "Groups: site, store, connections,");
    }

    @Test
    void an_unknown_group_is_wrong_and_the_groups_are_named() {
        Ran ran = Ran.leat("settings", "pumps");

        assertThat(ran.code()).isEqualTo(ExitCode.WRONG);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err()).contains("There is no group pumps", "limits.rise");
    }
}
