package leat.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneOffset;
import java.util.List;
import leat.measure.Figure;
import leat.measure.absence.Absence;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

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
