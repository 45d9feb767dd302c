package leat.config;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import leat.signal.Channel;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Another scale in the text of a site file, and nothing else. */
class ScaleEditTest {

    private static final String HEAD =
            """
            site: { name: Yard }   # \u6f22\u5b57 \ud83d\udca7 two columns, and one of two chars
            connections:
              plc: { modbus_tcp: { host: 127.0.0.1 } }
            tell: { log: { by: { log: { } } } }
            machines:
              jet-1:
                channels:
            """;
    private static final String REGISTER =
            "register: { table: input_register, address: 1, type: uint16 }";
    private static final String LOOP =
            "loop: [ { raw: 0, current: 0 mA }, { raw: 20000, current: 20 mA } ]";
    private static final TwoPoint HIGHER = new TwoPoint(4.1, 0, 20.1, 200);

    private static Transducer transducer(String text) {
        LoadedSite loaded = SiteFile.archived(text);
        assertThat(loaded.problems()).isEmpty();
        return (Transducer)
                loaded.site()
                        .orElseThrow()
                        .machine("jet-1")
                        .orElseThrow()
                        .byChannel()
                        .get(Channel.BOOSTED)
                        .conversion();
    }

    private static Optional<String> edited(String text, TwoPoint line) {
        return new ScaleEdit("jet-1", Channel.BOOSTED, line).in(text);
    }

    private static List<Integer> changedLines(String before, String after) {
        List<String> old = before.lines().toList();
        List<String> fresh = after.lines().toList();
        assertThat(fresh).hasSameSizeAs(old);
        return IntStream.range(0, old.size())
                .filter(i -> !old.get(i).equals(fresh.get(i)))
                .boxed()
                .toList();
    }

    @Test
    void in_the_example_site_one_line_changes_and_every_comment_stays() throws IOException {
        String text = Files.readString(Path.of("config/boatyard-modbus.yaml"));

        String after = edited(text, HIGHER).orElseThrow();

        assertThat(changedLines(text, after)).hasSize(1);
        assertThat(after)
                .contains("scale: [ { at: 4.1 mA, reads: 0 psi }, { at: 20.1 mA, reads: 200");
        assertThat(transducer(after).pressure().at(4.1)).isCloseTo(0, within(1e-9));
        assertThat(transducer(after).highPsi()).isEqualTo(transducer(text).highPsi());
    }

    /** What stands in angle brackets is to become 4.1 mA and 20.1 mA. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "      boosted:\n        from: plc\n        REGISTER\n        LOOP\n"
                        + "        scale:   # name plate\n          - at: <4 mA>   # vented\n"
                        + "            reads: 0 psi\n          - { reads: 200 psi, at: <20 mA> }\n",
                "      boosted: { from: plc, REGISTER, LOOP, scale: [ { at: <\"4 mA\">, reads: '0 psi' },"
                        + " {at: <20mA>,reads: 200psi} ] } # all in one\n",
                "      \"boosted\":\n        scale:\n        - {at: <4 mA>, reads: 0 bar}\n"
                        + "        - {at: <20 mA>, reads: 13.78951 bar}\n        LOOP\n"
                        + "        REGISTER\n        from: plc\n"
            })
    void however_the_scale_is_laid_out_its_inputs_alone_change(String channel) {
        String marked = HEAD + channel.replace("REGISTER", REGISTER).replace("LOOP", LOOP);
        String text = marked.replaceAll("[<>]", "");

        String after = edited(text, HIGHER).orElseThrow();

        assertThat(after)
                .isEqualTo(
                        marked.replaceFirst("<[^>]*>", "4.1 mA")
                                .replaceFirst("<[^>]*>", "20.1 mA"));
        assertThat(transducer(after).pressure().at(4.1)).isCloseTo(0, within(1e-4));
        assertThat(transducer(after).pressure().at(20.1)).isCloseTo(200, within(1e-3));
    }

    @Test
    void lines_of_another_system_keep_their_ends() {
        String text =
                (HEAD
                                + "      boosted: { from: plc, "
                                + REGISTER
                                + ", scale: [ { at: 0, reads: 0 psi }, { at: 1000, reads: 100 psi } ] }\n")
                        .replace("\n", "\r\n");

        String after = edited(text, new TwoPoint(12, 0, 1012, 100)).orElseThrow();

        assertThat(after)
                .isEqualTo(text.replace("at: 0,", "at: 12,").replace("at: 1000,", "at: 1012,"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"psi", "bar", "kPa"})
    void a_unit_becomes_a_scale_and_what_is_believed_stays(String unit) {
        String text =
                HEAD
                        + "      boosted:   # the only one\n        from: plc\n        unit: "
                        + unit
                        + "   # from the manual\n        "
                        + REGISTER
                        + "\n";
        TwoPoint before = transducer(text).pressure();
        double zero = before.inputFor(1.5);
        TwoPoint line = new TwoPoint(zero, 0, zero + before.inputFor(100), 100);

        String after = edited(text, line).orElseThrow();

        assertThat(after).contains("# the only one", "# from the manual", "reads: 0 " + unit);
        assertThat(transducer(after).pressure().at(zero)).isCloseTo(0, within(1e-3));
        assertThat(transducer(after).pressure().at(zero + before.inputFor(100)))
                .isCloseTo(100, within(2e-3));
        assertThat(transducer(after).lowPsi()).isEqualTo(-15);
        assertThat(transducer(after).highPsi()).isEqualTo(500);
    }

    @Test
    void a_unit_in_braces_becomes_a_scale_in_braces_and_a_range_of_its_own_stays() {
        String text =
                HEAD
                        + "      boosted: { from: plc, unit: psi, "
                        + REGISTER
                        + ", range: [ -5 psi, 210 psi ] }\n";

        String after = edited(text, new TwoPoint(1.5, 0, 101.5, 100)).orElseThrow();

        assertThat(after)
                .contains("scale: [ { at: 1.5, reads: 0 psi }, { at: 101.5, reads: 100 psi } ], ")
                .containsOnlyOnce("range:");
        assertThat(transducer(after).highPsi()).isEqualTo(210);
        assertThat(edited(text.replace(", range: [ -5 psi, 210 psi ]", ""), HIGHER))
                .hasValueSatisfying(
                        other -> assertThat(transducer(other).highPsi()).isEqualTo(500));
    }

    @Test
    void what_is_not_there_is_not_changed() {
        assertThat(new ScaleEdit("jet-2", Channel.BOOSTED, HIGHER).in(HEAD)).isEmpty();
        assertThat(new ScaleEdit("jet-1", Channel.INLET, HIGHER).in(HEAD + "      boosted: {}\n"))
                .isEmpty();
        assertThat(edited("a: [", HIGHER)).isEmpty();
        assertThat(edited("", HIGHER)).isEmpty();
    }
}
