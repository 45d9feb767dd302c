package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

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

        List<Problem> warnings = warnings(GoodSite.with("tell:\n", second + "tell:\n"));

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
        List<Problem> warnings = warnings(GoodSite.with("tell:\n", second + "tell:\n"));

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

    @ParameterizedTest
    @CsvSource(
            delimiterString = "=>",
            textBlock =
                    """
                    40101 => holding register 101 there is address 100 here => table: holding_register, address: 100
                    30001 => input register 1 there is address 0 here => table: input_register, address: 0
                    49999 => holding register 9999 there is address 9998 here => table: holding_register, address: 9998
                    """)
    void an_address_in_the_style_of_a_manual_is_doubtful(
            String written, String words, String meant) {
        String text =
                GoodSite.with("address: 0, type: uint16", "address: " + written + ", type: uint16");

        List<Problem> warnings = warnings(text);

        assertThat(warnings)
                .extracting(Problem::path)
                .containsExactly("machines.jet-1.channels.inlet.register.address");
        assertThat(warnings.get(0).line()).isEqualTo(GoodSite.lineOf(text, written));
        assertThat(warnings.get(0).column()).isEqualTo(65);
        assertThat(warnings.get(0).what())
                .isEqualTo(
                        written + " looks like the " + written.charAt(0) + "0001 style: " + words);
        assertThat(warnings.get(0).allowed()).contains(meant);
    }

    @ParameterizedTest
    @ValueSource(ints = {9999, 10001, 20001, 30000, 40000, 50001, 65535})
    void any_other_address_of_a_register_is_in_no_doubt(int address) {
        assertThat(
                        warnings(
                                GoodSite.with(
                                        "address: 0, type: uint16",
                                        "address: " + address + ", type: uint16")))
                .isEmpty();
    }

    @Test
    void a_discrete_input_of_the_10001_style_is_doubtful() {
        List<Problem> warnings =
                warnings(
                        GoodSite.with(
                                "discrete_input, address: 0", "discrete_input, address: 10003"));

        assertThat(warnings).hasSize(1);
        assertThat(warnings.get(0).what()).endsWith("discrete input 3 there is address 2 here");
    }
}
