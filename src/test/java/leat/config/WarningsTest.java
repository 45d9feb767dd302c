package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class WarningsTest {

    private static List<Problem> warnings(String text) {
        LoadedSite loaded = SiteFile.archived(text);
        assertThat(loaded.problems()).isEmpty();
        return loaded.warnings();
    }

    @Test
    void the_good_site_raises_no_doubt() {
        assertThat(warnings(GoodSite.TEXT)).isEmpty();
    }

    /** 118 psi against the limit of 120: own model runs show alarms in normal running. */
    @Test
    void a_set_level_within_three_percent_of_a_limit_is_doubtful_but_stops_nothing() {
        List<Problem> warnings = warnings(GoodSite.with("set: 100 psi", "set: 118 psi"));

        assertThat(warnings).hasSize(1);
        assertThat(warnings.get(0).path()).isEqualTo("limits.level.set");
        assertThat(warnings.get(0).toString())
                .contains("118 psi is within 3 % of level.high_advisory (120 psi, its default)");
    }

    @Test
    void just_outside_three_percent_is_in_no_doubt() {
        assertThat(warnings(GoodSite.with("set: 100 psi", "set: 116.3 psi"))).isEmpty();
        assertThat(warnings(GoodSite.with("set: 100 psi", "set: 116.4 psi"))).hasSize(1);
    }

    @Test
    void a_limit_of_a_machine_close_to_the_set_level_of_the_site_is_shown_at_the_machine() {
        List<Problem> warnings =
                warnings(
                        GoodSite.with(
                                "limits: { rise", "limits: { level: { advisory: 99 psi }, rise"));

        assertThat(warnings)
                .extracting(Problem::path)
                .containsExactly("machines.jet-1.limits.level.advisory");
        assertThat(warnings.get(0).what()).contains("level.set (100 psi, line 21)");
    }

    @Test
    void a_line_that_keeps_its_pressure_without_a_run_signal_is_doubtful() {
        String second =
                """
                  jet-2:
                    channels:
                      inlet:
                        from: cabinet-1
                        register: { table: input_register, address: 40, type: uint16 }
                        unit: psi
                      boosted:
                        from: cabinet-1
                        register: { table: input_register, address: 41, type: uint16 }
                        unit: psi
                """;

        List<Problem> warnings = warnings(GoodSite.with("routes:\n", second + "routes:\n"));

        assertThat(warnings).extracting(Problem::path).containsExactly("limits.rest.bleeds");
        assertThat(warnings.get(0).allowed()).contains("wire running or valve");
    }

    @Test
    void a_connection_that_nobody_uses_is_doubtful() {
        List<Problem> warnings =
                warnings(
                        GoodSite.with(
                                "limits:\n  level",
                                "  spare:\n    modbus_tcp: { host: 127.0.0.1 }\nlimits:\n  level"));

        assertThat(warnings).extracting(Problem::path).containsExactly("connections.spare");
    }

    @Test
    void a_slow_poll_is_doubtful() {
        List<Problem> warnings = warnings(GoodSite.with("poll: 50 ms", "poll: 500 ms"));

        assertThat(warnings)
                .extracting(Problem::path)
                .containsExactly("connections.cabinet-1.modbus_tcp.poll");
    }

    @Test
    void two_machines_may_share_the_inlet_but_hardly_the_boosted_pressure() {
        String second =
                """
                  jet-2:
                    channels:
                      inlet:
                        from: cabinet-1
                        register: { table: input_register, address: 0, type: uint16 }
                        unit: psi
                      boosted:
                        from: broker
                        topic: { name: yard/jet-1/boosted, value: /psi }
                        unit: psi
                """;
        List<Problem> warnings = warnings(GoodSite.with("routes:\n", second + "routes:\n"));

        assertThat(warnings)
                .extracting(Problem::path)
                .containsExactly("limits.rest.bleeds", "machines.jet-2.channels.boosted");
    }

    @Test
    void a_word_order_for_sixteen_bits_is_doubtful() {
        List<Problem> warnings = warnings(GoodSite.with("word_order: ABCD", "word_order: BADC"));

        assertThat(warnings)
                .extracting(Problem::path)
                .containsExactly("machines.jet-1.channels.inlet.register.word_order");
    }
}
