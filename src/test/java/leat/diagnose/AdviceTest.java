package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AdviceTest {

    @Test
    void each_advice_is_for_some_finding() {
        Stream<Advice> general =
                Arrays.stream(Rule.values())
                        .flatMap(
                                rule ->
                                        Stream.of(Grade.values())
                                                .map(grade -> Advice.on(rule, grade)));
        Stream<Advice> changed =
                Arrays.stream(Measurand.values())
                        .map(measurand -> Advice.on(changed(measurand.key(), Sense.AT_MOST)));

        assertThat(Stream.concat(general, changed)).contains(Advice.values());
    }

    /** A finding against the baseline that rests on this number first. */
    private static Finding changed(String measurand, Sense sense) {
        return new Finding(
                Rule.BASELINE,
                Channel.BOOSTED,
                Grade.ADVISORY,
                0,
                1,
                Quantity.PRESSURE_PSI,
                2,
                1,
                sense,
                Figure.of(40),
                Figure.of(100),
                List.of(new Remark(Remark.Kind.MORE, List.of(2.0, 1.0, 1.0), measurand)));
    }

    /** Common practice, no source. */
    @ParameterizedTest
    @CsvSource({
        "loaded_psi, AT_LEAST, CHANGED",
        "unloaded_psi, AT_MOST, CHANGED_HIGHER",
        "boost_psi_per_s, AT_LEAST, CHANGED_SLOWER",
        "time_to_level_s, AT_MOST, CHANGED_SLOWER",
        "dead_time_s, AT_MOST, CHANGED_SLOWER",
        "fall_s, AT_LEAST, CHANGED_FALL",
        "filter_loss_psi, AT_MOST, CLOGGED_FILTERS",
        "inlet_sag_psi, AT_MOST, CHANGED",
        "a word of a link, AT_MOST, CHANGED"
    })
    void what_to_look_at_first_of_a_machine_that_changed_goes_by_what_changed(
            String measurand, Sense sense, Advice advice) {
        assertThat(Advice.on(changed(measurand, sense))).isEqualTo(advice);
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
