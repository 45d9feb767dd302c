package leat.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneOffset;
import java.util.List;
import leat.measure.Figure;
import leat.measure.absence.Absence;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class FindingWordsTest {

    private final FindingWords words =
            new FindingWords(
                    Phrases.in(Language.ENGLISH),
                    new Numbers(Language.ENGLISH, PressureUnit.PSI, ZoneOffset.UTC));

    @ParameterizedTest
    @CsvSource({
        "SIGNAL_MISSING, no good inlet reading for",
        "SIGNAL_BAD, no good inlet reading for",
        "SIGNAL_STUCK, inlet reading unchanged for",
        "SIGNAL_CLOCK, inlet sensor and computer differ by",
        "RISE, time to rise",
        "BASELINE, time"
    })
    void a_time_is_named_by_what_lasted(Rule rule, String name) {
        Finding finding =
                new Finding(
                        rule,
                        Channel.INLET,
                        Grade.WARNING,
                        0,
                        0,
                        Finding.Quantity.TIME_SECONDS,
                        7,
                        5,
                        Finding.Sense.AT_MOST,
                        Figure.of(40),
                        Figure.of(90),
                        List.of());

        assertThat(words.judged(finding)).isEqualTo(name);
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void in_every_language_a_measured_value_stands_beside_its_limit(Language language) {
        FindingWords own =
                new FindingWords(
                        Phrases.in(language),
                        new Numbers(language, PressureUnit.PSI, ZoneOffset.UTC));
        String point = language == Language.GERMAN ? "," : ".";

        assertThat(
                        own.beside(
                                finding(
                                        Rule.RATIO,
                                        Channel.BOOSTED,
                                        Finding.Quantity.RATIO,
                                        1.75,
                                        2)))
                .isEqualTo("1" + point + "75 > 2" + point + "00");
        assertThat(
                        own.beside(
                                finding(
                                        Rule.LEVEL_LOW,
                                        Channel.BOOSTED,
                                        Finding.Quantity.PRESSURE_PSI,
                                        74.75,
                                        80)))
                .startsWith("74" + point + "8 > 80")
                .endsWith(" psi");
    }

    private static Finding finding(
            Rule rule,
            Channel channel,
            Finding.Quantity quantity,
            double measured,
            double limit,
            Remark... remarks) {
        return new Finding(
                rule,
                channel,
                Grade.WARNING,
                0,
                0,
                quantity,
                measured,
                limit,
                Finding.Sense.AT_MOST,
                Figure.of(40),
                Figure.of(90),
                List.of(remarks));
    }

    @Test
    void readings_lost_off_and_on_are_a_share_of_a_minute() {
        Finding lost =
                finding(Rule.SIGNAL_MISSING, Channel.INLET, Finding.Quantity.RATIO, 0.274, 0.25);

        assertThat(words.what(lost)).isEqualTo("inlet channel breaks off again and again");
        assertThat(words.judged(lost)).isEqualTo("inlet readings lost in a minute");
        assertThat(words.measured(lost)).isEqualTo("27 %");
        assertThat(words.limit(lost)).isEqualTo("at most 25 %");
    }

    @Test
    void gauges_changed_over_are_a_matter_of_wiring_or_configuration_of_both() {
        Finding swapped =
                finding(
                        Rule.SIGNAL_SWAPPED,
                        Channel.INLET,
                        Finding.Quantity.PRESSURE_PSI,
                        99,
                        38.4,
                        Remark.of(Remark.Kind.SWAPPED_AT_REST, 0.2, 42));

        assertThat(words.what(swapped)).isEqualTo("inlet and boosted changed over");
        assertThat(words.remarks(swapped))
                .isEqualTo(
                        "at rest inlet read 0.2 psi and boosted 42.0 psi, and the two change places"
                                + " with each start: two cables, or two addresses or topics, are"
                                + " changed over");
        assertThat(String.join(" ", words.checks(swapped)))
                .contains("labels", "address, register or topic")
                .doesNotContain("Stop the booster");
    }

    @Test
    void what_the_filters_cost_is_no_filtered_pressure() {
        Finding loss =
                finding(
                        Rule.FILTER_LOSS,
                        Channel.FILTERED,
                        Finding.Quantity.PRESSURE_PSI,
                        21.5,
                        20);

        assertThat(words.what(loss)).isEqualTo("pressure lost over the filters");
        assertThat(words.judged(loss)).isEqualTo("boosted less filtered pressure");
    }

    @Test
    void a_channel_that_never_read_right_names_what_to_look_at_in_each_language() {
        Remark never = Remark.of(Remark.Kind.NEVER_RIGHT);
        FindingWords german =
                new FindingWords(
                        Phrases.in(Language.GERMAN),
                        new Numbers(Language.GERMAN, PressureUnit.PSI, ZoneOffset.UTC));
        Finding bad =
                finding(Rule.SIGNAL_BAD, Channel.INLET, Finding.Quantity.TIME_SECONDS, 6, 5, never);

        assertThat(words.remarks(bad)).contains("word order", "data type", "scaling", "address");
        assertThat(german.remarks(bad)).contains("Wortfolge", "Datentyp", "Skalierung", "Adresse");
    }

    @Test
    void a_person_at_a_machine_with_one_gauge_is_told_of_that_one() {
        assertThat(words.gauges(low(Figure.of(42), Figure.of(74))))
                .hasValue("Gauges: inlet 42.0 psi, boosted 74.0 psi.");
        assertThat(words.gauges(low(Figure.absent(Absence.NO_INLET_GAUGE), Figure.of(74))))
                .hasValue("Gauge: boosted 74.0 psi. No inlet gauge is wired.");
        assertThat(words.gauges(low(Figure.absent(Absence.NOT_BOTH_GAUGES), Figure.of(74))))
                .isEmpty();
    }

    private static Finding low(Figure inlet, Figure boosted) {
        return new Finding(
                Rule.LEVEL_LOW,
                Channel.BOOSTED,
                Grade.WARNING,
                0,
                0,
                Finding.Quantity.PRESSURE_PSI,
                74,
                80,
                Finding.Sense.AT_LEAST,
                inlet,
                boosted,
                List.of());
    }
}
