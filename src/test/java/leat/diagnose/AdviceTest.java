package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.stream.Stream;
import leat.rule.Grade;
import leat.rule.Rule;
import org.junit.jupiter.api.Test;

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

    /** Whatever its grade, a pressure that did rise is not looked for as one that did not. */
    @Test
    void only_a_critical_finding_says_that_the_pressure_did_not_rise() {
        assertThat(Advice.on(Rule.RISE, Grade.ADVISORY)).isEqualTo(Advice.SLOW_RISE);
        assertThat(Advice.on(Rule.RISE, Grade.WARNING)).isEqualTo(Advice.SLOW_RISE);
        assertThat(Advice.on(Rule.RISE, Grade.CRITICAL)).isEqualTo(Advice.NOT_RISEN);
    }
}
