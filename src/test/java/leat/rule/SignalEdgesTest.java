package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import leat.phase.Phase;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.signal.Reading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Where each finding about a channel comes and goes, and after how long, found by trying under
 * {@link OwnLimits}. What is expected is written from what the settings table says of each limit
 * ({@code config/settings.md}, phrases {@code meaning.*}), not from the judges; the figures
 * themselves are facts of the trade or own choice, as that table says.
 */
class SignalEdgesTest {

    /** What a channel says of itself. */
    static final String SIGNALS =
            """
            SILENT | SIGNAL_MISSING | signal.missing | signal.off_delay
            LOST   | SIGNAL_MISSING | signal.missing | signal.off_delay
            BAD    | SIGNAL_BAD     | signal.missing | signal.off_delay
            STUCK  | SIGNAL_STUCK   | signal.stuck   | signal.off_delay
            """;

    /** Limits that tests here look at by name. */
    static final String ALONE =
            "signal.stuck_other signal.clock signal.lost_share_advisory signal.lost_share_warning";

    private static final int LONG_ENOUGH = 80;

    /** The clock is set on, and back; hours. */
    private static final List<Integer> STEPS = List.of(1, -1);

    /** What is wrong with the inlet's channel, second by second. */
    private enum Ill {
        SILENT,
        LOST,
        BAD,
        STUCK;

        void second(Stand stand) {
            switch (this) {
                case SILENT -> stand.silentSecond();
                case LOST -> {
                    stand.lose(Channel.INLET);
                    stand.silentSecond();
                }
                case BAD ->
                        stand.second(
                                Reading.bad(
                                        Channel.INLET, stand.nextMicros(), Quality.LOOP_BROKEN));
                case STUCK -> stillSecond(stand, 10);
            }
        }
    }

    /** The inlet reads the same to the bit, and the boosted pressure swings. */
    private static void stillSecond(Stand stand, double swingPsi) {
        boolean isEven = stand.nextMicros() / 1_000_000 % 2 == 0;
        stand.read(Channel.INLET, 42);
        stand.read(Channel.BOOSTED, isEven ? 100 : 100 + swingPsi);
        stand.silentSecond();
    }

    private static void healthySecond(Stand stand) {
        boolean isEven = stand.nextMicros() / 1_000_000 % 2 == 0;
        stand.read(Channel.INLET, isEven ? 41 : 41.5);
        stand.read(Channel.BOOSTED, isEven ? 100 : 101);
        stand.silentSecond();
    }

    private static Stand healthy60() {
        Stand stand = new Stand().turn(Phase.STEADY);
        for (int i = 0; i < 60; i++) {
            healthySecond(stand);
        }
        return stand;
    }

    private static int secondsUntilFound(Stand stand, Rule rule, Ill ill) {
        return Edge.secondsUntil(() -> stand.stands(rule, Grade.WARNING), () -> ill.second(stand));
    }

    private static int secondsUntilGone(Stand stand, Rule rule) {
        return Edge.secondsUntil(() -> stand.finding(rule).isEmpty(), () -> healthySecond(stand));
    }

    /** A second more may pass until the first reading, or until the first BAD one is over. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = SIGNALS)
    void a_sick_channel_is_told_and_let_go_after_its_own_delays(
            Ill ill, Rule rule, String on, String off) {
        Stand stand = healthy60();

        int comes = secondsUntilFound(stand, rule, ill);
        double limit = stand.finding(rule).orElseThrow().limit();
        int goes = secondsUntilGone(stand, rule);

        assertThat(limit).isEqualTo(OwnLimits.of(on));
        assertThat(comes - (int) OwnLimits.of(on)).isBetween(0, 1);
        assertThat(goes - (int) OwnLimits.of(off)).isBetween(1, 2);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = SIGNALS)
    void a_clock_step_gives_a_sick_channel_its_whole_time_again(Ill ill, Rule rule, String on) {
        for (int hours : STEPS) {
            Stand stand = healthy60();
            for (int i = 1; i < OwnLimits.of(on); i++) {
                ill.second(stand);
            }
            stand.stepClock(hours);
            speakOnce(stand, ill);

            int comes = secondsUntilFound(stand, rule, ill);

            assertThat(comes - (int) OwnLimits.of(on)).isBetween(0, 1);
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = SIGNALS)
    void a_clock_step_begins_the_time_of_a_channel_that_speaks_well_again_afresh(
            Ill ill, Rule rule, String on, String off) {
        for (int hours : STEPS) {
            Stand stand = healthy60();
            secondsUntilFound(stand, rule, ill);
            for (int i = 0; i < OwnLimits.of(off); i++) {
                healthySecond(stand);
            }
            stand.stepClock(hours);

            int goes = secondsUntilGone(stand, rule);

            assertThat(goes - (int) OwnLimits.of(off)).isBetween(1, 2);
        }
    }

    /** A pressure that has not spoken since the step is for its source to miss. */
    private static void speakOnce(Stand stand, Ill ill) {
        if (ill == Ill.SILENT) {
            healthySecond(stand);
        }
    }

    /** One reading a second, of each three at most one lost. */
    private static int leastLostToldAs(Grade grade) {
        int lost = 0;
        boolean stands = false;
        while (!stands && lost < 20) {
            lost++;
            Stand stand = healthy60();
            for (int i = 0; i < 60; i++) {
                secondWithInlet(stand, i >= 3 * lost || i % 3 != 2, false);
            }
            stands = stand.stands(Rule.SIGNAL_MISSING, grade);
        }
        return lost;
    }

    private static void secondWithInlet(Stand stand, boolean speaks, boolean asBad) {
        boolean isEven = stand.nextMicros() / 1_000_000 % 2 == 0;
        if (speaks) {
            stand.read(Channel.INLET, isEven ? 41 : 41.5);
        } else if (asBad) {
            stand.read(Reading.bad(Channel.INLET, stand.nextMicros(), Quality.LOOP_BROKEN));
        }
        stand.read(Channel.BOOSTED, isEven ? 100 : 101);
        stand.silentSecond();
    }

    @ParameterizedTest
    @CsvSource({"ADVISORY, signal.lost_share_advisory", "WARNING, signal.lost_share_warning"})
    void a_channel_that_breaks_off_is_told_when_more_than_its_share_of_a_minute_is_lost(
            Grade grade, String limit) {
        int allowed = (int) (60 * OwnLimits.of(limit));

        int lost = leastLostToldAs(grade);

        assertThat(lost).isEqualTo(1 + allowed);
    }

    @Test
    void bad_readings_count_as_lost_ones() {
        Stand stand = healthy60();
        for (int i = 0; i < 40; i++) {
            secondWithInlet(stand, i % 4 != 3, true);
        }

        Finding told = stand.finding(Rule.SIGNAL_MISSING).orElseThrow();

        assertThat(told.channel()).isEqualTo(Channel.INLET);
        assertThat(told.grade()).isEqualTo(Grade.ADVISORY);
        assertThat(told.quantity()).isEqualTo(Finding.Quantity.RATIO);
        assertThat(told.measured()).isCloseTo(9 / 60.0, within(1e-9));
        assertThat(told.limit()).isEqualTo(OwnLimits.of("signal.lost_share_advisory"));
    }

    /** Where no more than a short run was seen, the share is of that. */
    @ParameterizedTest
    @CsvSource({"3, false", "4, false", "5, true"})
    void a_channel_that_breaks_off_in_the_first_40_seconds_is_told_by_its_share_of_them(
            int lost, boolean isTold) {
        Stand stand = new Stand().turn(Phase.STEADY);
        for (int i = 0; i < 40; i++) {
            secondWithInlet(stand, i % 3 != 2 || i < 15 || i >= 15 + 3 * lost, true);
        }

        assertThat(stand.stands(Rule.SIGNAL_MISSING, Grade.ADVISORY)).isEqualTo(isTold);
    }

    @Test
    void a_channel_that_broke_off_is_let_go_when_half_its_share_is_left_and_the_off_delay_over() {
        Stand stand = healthy60();
        for (int i = 0; i < 27; i++) {
            secondWithInlet(stand, i % 3 != 2, false);
        }
        healthySecond(stand);
        healthySecond(stand); // the ninth is over, and was no slower beat
        assertThat(stand.stands(Rule.SIGNAL_MISSING, Grade.ADVISORY)).isTrue();
        int fifthLeavesAfter = 60 - 4 * 3;

        int goes = secondsUntilGone(stand, Rule.SIGNAL_MISSING);

        assertThat(goes - fifthLeavesAfter - (int) OwnLimits.of("signal.off_delay")).isZero();
    }

    @Test
    void a_sensor_s_time_is_believed_up_to_its_limit() {
        double off =
                Edge.between(
                        0,
                        20,
                        seconds -> {
                            Stand stand = healthy60();
                            for (int i = 0; i < LONG_ENOUGH; i++) {
                                stand.claim(Channel.INLET, 42, seconds);
                            }
                            return stand.stands(Rule.SIGNAL_CLOCK, Grade.ADVISORY);
                        });

        assertThat(off).isCloseTo(OwnLimits.of("signal.clock"), within(1e-4));
    }

    @Test
    void a_sensor_clock_is_told_and_let_go_after_the_delays_of_a_bad_channel() {
        Stand stand = healthy60();

        int comes =
                Edge.secondsUntil(
                        () -> stand.stands(Rule.SIGNAL_CLOCK, Grade.ADVISORY),
                        () -> stand.claim(Channel.INLET, 42, -3_600));
        Finding told = stand.finding(Rule.SIGNAL_CLOCK).orElseThrow();
        int goes = secondsUntilGone(stand, Rule.SIGNAL_CLOCK);

        assertThat(told.measured()).isEqualTo(3_600);
        assertThat(told.remarks()).containsExactly(Remark.of(Remark.Kind.CLOCK_BEHIND));
        assertThat(comes - (int) OwnLimits.of("signal.missing")).isBetween(0, 1);
        assertThat(goes - (int) OwnLimits.of("signal.off_delay")).isBetween(1, 2);
    }

    @Test
    void a_clock_step_gives_a_sensor_clock_that_is_off_its_whole_time_again() {
        for (int hours : STEPS) {
            Stand stand = healthy60();
            for (int i = 1; i < OwnLimits.of("signal.missing"); i++) {
                stand.claim(Channel.INLET, 42, 60);
            }
            stand.stepClock(hours);

            int comes =
                    Edge.secondsUntil(
                            () -> stand.stands(Rule.SIGNAL_CLOCK, Grade.ADVISORY),
                            () -> stand.claim(Channel.INLET, 42, 60));

            assertThat(comes - (int) OwnLimits.of("signal.missing")).isBetween(0, 1);
        }
    }

    @Test
    void a_still_reading_is_stuck_only_when_the_other_has_moved_by_more_than_its_limit() {
        double moved =
                Edge.between(
                        0,
                        20,
                        psi -> {
                            Stand stand = healthy60();
                            for (int i = 0; i < LONG_ENOUGH; i++) {
                                stillSecond(stand, psi);
                            }
                            return stand.stands(Rule.SIGNAL_STUCK, Grade.WARNING);
                        });

        assertThat(moved).isCloseTo(OwnLimits.of("signal.stuck_other"), within(1e-4));
    }
}
