package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class ScheduleTest {

    private static final long START = Long.MAX_VALUE - 500; // nanoTime may wrap
    private static final long PERIOD = 100;

    private final Schedule schedule = new Schedule(START, PERIOD);

    @Test
    void late_starts_do_not_move_later_deadlines() {
        for (int n = 1; n <= 1000; n++) {
            long skipped = schedule.advance(schedule.deadlineNanos() + n % 100);

            assertThat(skipped).isZero();
        }
        assertThat(schedule.deadlineNanos()).isEqualTo(START + 1000 * PERIOD);
    }

    @Test
    void a_deadline_that_passed_by_half_a_period_is_still_met_late() {
        assertThat(schedule.advance(START + PERIOD + PERIOD / 2)).isZero();
        assertThat(schedule.deadlineNanos()).isEqualTo(START + PERIOD);
    }

    @Test
    void a_deadline_that_passed_by_more_is_lost() {
        assertThat(schedule.advance(START + PERIOD + PERIOD / 2 + 1)).isEqualTo(1);
        assertThat(schedule.deadlineNanos()).isEqualTo(START + 2 * PERIOD);
    }

    @Test
    void a_poll_that_overruns_costs_the_deadlines_that_passed() {
        long skipped = schedule.advance(START + 4 * PERIOD + PERIOD / 2 + 1);

        assertThat(skipped).isEqualTo(4);
        assertThat(schedule.deadlineNanos()).isEqualTo(START + 5 * PERIOD);
    }

    @Test
    void polls_and_skips_add_up_to_the_time_that_passed() {
        long skipped = 0;
        long polls = 0;
        while (schedule.deadlineNanos() - START < 1000 * PERIOD) {
            polls++;
            skipped += schedule.advance(schedule.deadlineNanos() + polls * 37 % 450);
        }

        assertThat(polls + skipped).isEqualTo((schedule.deadlineNanos() - START) / PERIOD);
    }

    @Test
    void what_failed_is_tried_at_the_next_poll_and_then_after_pauses_that_double() {
        Retry retry = new Retry(Duration.ofSeconds(1));
        LinkFault fault = new LinkFault(LinkFault.Failure.REFUSED, "refused");

        assertThat(pauseMillis(retry, fault)).isEqualTo(0);
        assertThat(pauseMillis(retry, fault)).isEqualTo(250);
        assertThat(pauseMillis(retry, fault)).isEqualTo(500);
        assertThat(pauseMillis(retry, fault)).isEqualTo(1000);
        assertThat(pauseMillis(retry, fault)).isEqualTo(1000);
        retry.answered();
        assertThat(pauseMillis(retry, fault)).isEqualTo(0);
    }

    @Test
    void what_failed_within_a_poll_is_not_due_again_in_that_poll() {
        Retry retry = new Retry(Duration.ofSeconds(1));

        retry.failed(new LinkFault(LinkFault.Failure.REFUSED, "refused"), START + 1);

        assertThat(retry.isDue(START)).isFalse();
        assertThat(retry.isDue(START + 1)).isTrue();
    }

    private static long pauseMillis(Retry retry, LinkFault fault) {
        retry.failed(fault, 0);
        long millis = 0;
        while (!retry.isDue(millis * 1_000_000)) {
            millis++;
        }
        return millis;
    }
}
