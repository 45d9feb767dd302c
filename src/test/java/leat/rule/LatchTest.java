package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/**
 * On-delay, off-delay and deadband as OPC 10000-9 (Part 9) v1.05, B.1.5 describes them: the
 * condition must hold for the whole on-delay; the deadband applies to the clear side; the off-delay
 * holds.
 */
class LatchTest {

    private static final long S = 1_000_000;
    private final Latch latch = new Latch(10 * S, 5 * S);

    @Test
    void becomes_active_only_after_the_whole_on_delay_and_says_since_when() {
        latch.look(100 * S, true, false);
        latch.look(109 * S, true, false);
        assertThat(latch.isActive()).isFalse();

        latch.look(110 * S, true, false);

        assertThat(latch.isActive()).isTrue();
        assertThat(latch.activeSince()).isEqualTo(100 * S);
    }

    @Test
    void a_break_in_the_condition_starts_the_on_delay_afresh() {
        latch.look(100 * S, true, false);
        latch.look(105 * S, false, false);
        latch.look(106 * S, true, false);
        latch.look(115 * S, true, false);

        assertThat(latch.isActive()).isFalse();
    }

    @Test
    void inside_the_deadband_it_stays_as_it_is() {
        latch.look(0, true, false);
        latch.look(10 * S, true, false);
        latch.look(1000 * S, false, false);

        assertThat(latch.isActive()).isTrue();
    }

    @Test
    void clears_only_after_the_whole_off_delay() {
        latch.look(0, true, false);
        latch.look(10 * S, true, false);
        latch.look(20 * S, false, true);
        latch.look(24 * S, false, true);
        assertThat(latch.isActive()).isTrue();

        latch.look(25 * S, false, true);

        assertThat(latch.isActive()).isFalse();
    }

    @Test
    void a_pause_starts_delays_afresh_and_keeps_what_is_active() {
        latch.look(0, true, false);
        latch.look(10 * S, true, false);
        latch.pause();
        assertThat(latch.isActive()).isTrue();

        latch.look(11 * S, false, true);
        latch.pause();
        latch.look(16 * S, false, true);

        assertThat(latch.isActive()).isTrue();
    }

    @Test
    void time_that_does_not_count_is_left_out_of_both_delays() {
        latch.look(100 * S, true, false);
        latch.look(106 * S, true, false);
        latch.leaveOut(140 * S);
        latch.look(143 * S, true, false);
        assertThat(latch.isActive()).isFalse();
        latch.look(144 * S, true, false);
        assertThat(latch.isActive()).isTrue();
        assertThat(latch.activeSince()).isEqualTo(100 * S);

        latch.look(150 * S, false, true);
        latch.leaveOut(170 * S);
        latch.look(174 * S, false, true);
        assertThat(latch.isActive()).isTrue();
        latch.look(175 * S, false, true);
        assertThat(latch.isActive()).isFalse();
    }

    @Test
    void what_was_left_out_before_a_condition_began_is_not_left_out_of_its_delay() {
        latch.look(90 * S, false, true);
        latch.leaveOut(99 * S);
        latch.look(100 * S, true, false);
        latch.look(110 * S, true, false);

        assertThat(latch.isActive()).isTrue();
    }

    @Test
    void it_could_clear_by_itself_when_it_has_looked_for_longer_than_the_off_delay() {
        latch.look(100 * S, false, true);
        latch.look(103 * S, false, true);
        latch.leaveOut(120 * S);
        latch.look(122 * S, false, true);
        assertThat(latch.couldClear()).isFalse();

        latch.look(123 * S, false, true);
        assertThat(latch.couldClear()).isTrue();

        latch.pause();
        assertThat(latch.couldClear()).isFalse();
    }
}
