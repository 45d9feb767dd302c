package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.stream.Stream;
import leat.rule.Grade;
import leat.rule.Rule;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AdviceTest {

    @Test
    void each_advice_is_for_some_finding() {
        assertThat(
                        Arrays.stream(Rule.values())
                                .flatMap(
                                        rule ->
                                                Stream.of(Grade.values())
                                                        .map(grade -> Advice.on(rule, grade))))
                .contains(Advice.values());
    }

    /** Common practice, no source. */
    @ParameterizedTest
    @CsvSource({
        "RATIO, WEAK_BOOST, WEAK_BOOST, NOT_BOOSTING",
        "LEVEL_LOW, LEVEL_LOW, LEVEL_LOW, LEVEL_LOW",
        "LEVEL_HIGH, LEVEL_HIGH, LEVEL_HIGH, LEVEL_HIGH",
        "RISE, SLOW_RISE, SLOW_RISE, NOT_RISEN",
        "REST, PRESSURE_AT_REST, VALVE_LEAKS, VALVE_LEAKS",
        "INLET, WEAK_SUPPLY, WEAK_SUPPLY, STARVED",
        "BASELINE, CHANGED, CHANGED, CHANGED",
        "SIGNAL_MISSING, SILENT, SILENT, SILENT",
        "SIGNAL_BAD, BAD_SIGNAL, BAD_SIGNAL, BAD_SIGNAL",
        "SIGNAL_STUCK, STUCK_SIGNAL, STUCK_SIGNAL, STUCK_SIGNAL",
        "FILTER_LOSS, CLOGGED_FILTERS, CLOGGED_FILTERS, CLOGGED_FILTERS",
        "SIGNAL_CLOCK, WRONG_CLOCK, WRONG_CLOCK, WRONG_CLOCK",
        "SIGNAL_SWAPPED, SWAPPED_GAUGES, SWAPPED_GAUGES, SWAPPED_GAUGES"
    })
    void what_to_look_at_first(Rule rule, Advice advisory, Advice warning, Advice critical) {
        assertThat(Advice.on(rule, Grade.ADVISORY)).isEqualTo(advisory);
        assertThat(Advice.on(rule, Grade.WARNING)).isEqualTo(warning);
        assertThat(Advice.on(rule, Grade.CRITICAL)).isEqualTo(critical);
    }
}
