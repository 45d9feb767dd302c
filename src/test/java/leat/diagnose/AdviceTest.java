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
}
