package leat.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneOffset;
import java.util.List;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
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
}
