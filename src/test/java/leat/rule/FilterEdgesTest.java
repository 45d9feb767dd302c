package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import leat.phase.Phase;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Where the loss over the filters comes and goes, and after how long, found by trying under {@link
 * OwnLimits}. The loss is a mean of five seconds.
 */
class FilterEdgesTest {

    /** Limits that tests here look at. */
    static final String LIMITS = "filter.advisory filter.warning filter.deadband filter.delay";

    private static final int LONG_ENOUGH = 120;

    /** As long the mean holds a second of before. */
    private static final int STEP_SEEN = 5;

    private static void hold(Stand stand, double lossPsi, int seconds) {
        hold(stand, 101, lossPsi, seconds);
    }

    private static void hold(Stand stand, double boostedPsi, double lossPsi, int seconds) {
        for (int i = 0; i < seconds; i++) {
            boolean isEven = stand.nextMicros() / 1_000_000 % 2 == 0;
            double boosted = isEven ? boostedPsi : boostedPsi + 1;
            stand.read(Channel.INLET, isEven ? 41 : 41.5);
            stand.read(Channel.BOOSTED, boosted);
            stand.read(Channel.FILTERED, boosted - lossPsi);
            stand.silentSecond();
        }
    }

    private static Stand steady() {
        return new Stand().turn(Phase.STEADY);
    }

    private static int secondsUntil(Grade grade, boolean stands, Stand stand, double lossPsi) {
        return Edge.secondsUntil(
                () -> stand.stands(Rule.FILTER_LOSS, grade) == stands,
                () -> hold(stand, lossPsi, 1));
    }

    @ParameterizedTest
    @CsvSource({"ADVISORY, filter.advisory", "WARNING, filter.warning"})
    void a_loss_comes_at_its_own_limit_and_goes_below_it_by_its_deadband(
            Grade grade, String limit) {
        double comes =
                Edge.between(
                        0,
                        40,
                        psi -> {
                            Stand stand = steady();
                            hold(stand, psi, LONG_ENOUGH);
                            return stand.stands(Rule.FILTER_LOSS, grade);
                        });
        double goes =
                Edge.between(
                        40,
                        0,
                        psi -> {
                            Stand stand = steady();
                            hold(stand, 40, LONG_ENOUGH);
                            hold(stand, psi, LONG_ENOUGH);
                            return !stand.stands(Rule.FILTER_LOSS, grade);
                        });

        assertThat(comes).isCloseTo(OwnLimits.of(limit), within(1e-4));
        assertThat(goes).isCloseTo(OwnLimits.sum(limit + " - filter.deadband"), within(1e-4));
    }

    @Test
    void it_waits_for_the_arming_and_the_on_delay_and_goes_after_the_off_delay_of_the_level() {
        Stand stand = steady();

        int comes = secondsUntil(Grade.WARNING, true, stand, 40);
        int goes = secondsUntil(Grade.WARNING, false, stand, 1);

        assertThat(comes).isEqualTo((int) OwnLimits.sum("level.arm + filter.delay"));
        assertThat(goes).isEqualTo((int) OwnLimits.of("level.off_delay") + STEP_SEEN);
    }

    @Test
    void a_gauge_after_the_filters_that_says_nothing_accuses_no_filter() {
        Stand stand = steady();
        hold(stand, 1, 10);
        for (int i = 0; i < LONG_ENOUGH; i++) {
            stand.read(Channel.INLET, 41);
            stand.read(Channel.BOOSTED, 140 + i % 2);
            stand.silentSecond();
        }

        assertThat(stand.finding(Rule.FILTER_LOSS)).isEmpty();
    }

    @Test
    void what_reaches_the_intensifier_must_be_enough_too() {
        double edge =
                Edge.between(
                        0,
                        60,
                        psi -> {
                            Stand stand = steady();
                            hold(stand, psi, LONG_ENOUGH);
                            return stand.stands(Rule.LEVEL_LOW, Grade.WARNING);
                        });

        double mean = OwnLimits.of("level.warning");
        assertThat(101.5 - edge).isCloseTo(mean, within(0.5));
    }

    /** Boosted and filtered level are one alarm: what one of them ends the other raises anew. */
    @Test
    void low_behind_the_filters_is_told_again_when_the_boosted_level_has_come_back() {
        Stand stand = steady();
        hold(stand, 40, LONG_ENOUGH);
        assertThat(low(stand)).isEqualTo(Channel.FILTERED);
        hold(stand, 75, 40, LONG_ENOUGH);
        assertThat(low(stand)).isEqualTo(Channel.BOOSTED);

        hold(stand, 40, LONG_ENOUGH);

        assertThat(low(stand)).isEqualTo(Channel.FILTERED);
    }

    private static Channel low(Stand stand) {
        return stand.finding(Rule.LEVEL_LOW).orElseThrow().channel();
    }
}
