package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import leat.rule.Grade;
import leat.rule.StartupVerdict;
import leat.rule.StartupVerdict.Outcome;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Two days out of a sound machine's month; the month itself is run by hand. */
class HealthyMonthTest {

    private static final int DAYS = 2;

    static Iterable<HealthyMonth.Variant> variants() {
        return HealthyMonth.VARIANTS;
    }

    @ParameterizedTest
    @MethodSource("variants")
    void days_of_work_with_dips_of_the_supply_call_nobody_out(HealthyMonth.Variant variant) {
        Told told = HealthyMonth.feed(variant, DAYS, 4, 7).told();

        assertThat(told.alarms).noneMatch(a -> a.finding().grade().isAtLeast(Grade.WARNING));
        assertThat(told.verdicts)
                .extracting(StartupVerdict::outcome)
                .hasSize(16)
                .containsOnly(Outcome.GOOD);
    }
}
