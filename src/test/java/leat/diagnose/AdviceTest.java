package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import leat.rule.Grade;
import leat.rule.Rule;
import org.junit.jupiter.api.Test;

class AdviceTest {

    @Test
    void every_rule_in_every_grade_says_what_to_check_and_what_to_be_careful_of() {
        for (Rule rule : Rule.values()) {
            for (Grade grade : Grade.values()) {
                Advice advice = Advice.on(rule, grade);

                assertThat(advice.checkFirst())
                        .as("%s %s", rule, grade)
                        .hasSizeBetween(1, 3)
                        .allMatch(check -> check.length() <= 120 && check.matches(".*[.?]"));
                assertThat(advice.caution())
                        .as("%s %s", rule, grade)
                        .contains("isolate water and electricity", "lock out")
                        .contains("relieve pressure before opening a line")
                        .contains("high-pressure side can injure fatally")
                        .contains("site's procedure", "local codes", "qualified people")
                        .contains("no safety device");
            }
        }
    }

    @Test
    void critical_findings_that_may_run_the_booster_dry_begin_with_stopping_it() {
        assertThat(Advice.on(Rule.INLET, Grade.CRITICAL).checkFirst().get(0)).startsWith("Stop");
        assertThat(Advice.on(Rule.RISE, Grade.CRITICAL).checkFirst().get(0)).startsWith("Stop");
        assertThat(Advice.on(Rule.RATIO, Grade.CRITICAL).checkFirst().get(0)).startsWith("Stop");
    }
}
