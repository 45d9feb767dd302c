package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.atomic.AtomicLong;
import leat.signal.ClockStep;
import org.junit.jupiter.api.Test;

class EventClockTest {

    private static final long NOON = 1_767_614_400_000_000L; // 2026-01-05T12:00:00Z
    private static final long SECOND = 1_000_000;

    private final AtomicLong wall = new AtomicLong(NOON);
    private final AtomicLong nanos = new AtomicLong(77);
    private final EventClock clock = new EventClock(wall::get, nanos::get);

    private void pass(long micros) {
        wall.addAndGet(micros);
        nanos.addAndGet(micros * 1_000);
    }

    @Test
    void runs_with_the_monotonic_clock_between_two_looks() {
        nanos.addAndGet(3 * SECOND * 1_000);

        assertThat(clock.nowMicros()).isEqualTo(NOON + 3 * SECOND);
    }

    @Test
    void a_wall_clock_set_forward_is_a_step_that_says_from_where_to_where() {
        pass(10 * SECOND);
        wall.addAndGet(3_600 * SECOND);

        assertThat(clock.discipline())
                .contains(new ClockStep(NOON + 3_610 * SECOND, NOON + 10 * SECOND));
        assertThat(clock.nowMicros()).isEqualTo(NOON + 3_610 * SECOND);
        assertThat(clock.discipline()).isEmpty();
    }

    @Test
    void a_wall_clock_set_back_is_a_step_too() {
        pass(10 * SECOND);
        wall.addAndGet(-7_200 * SECOND);

        assertThat(clock.discipline()).isPresent();
        assertThat(clock.nowMicros()).isEqualTo(NOON - 7_190 * SECOND);
    }

    /** As when the computer is too busy to run leat just then. */
    @Test
    void a_stall_between_the_looks_at_the_two_clocks_is_no_step() {
        EventClock stalled =
                new EventClock(
                        () -> {
                            pass(4 * SECOND);
                            return wall.get();
                        },
                        nanos::get);
        pass(10 * SECOND);

        assertThat(stalled.discipline()).isEmpty();
        assertThat(stalled.nowMicros()).isEqualTo(wall.get());
    }

    @Test
    void a_small_difference_is_slewed_away_and_time_never_runs_back() {
        wall.addAndGet(-100_000);
        long before = clock.nowMicros();

        for (int second = 0; second < 300; second++) {
            pass(SECOND);
            assertThat(clock.discipline()).isEmpty();
            assertThat(clock.nowMicros()).isGreaterThan(before);
            before = clock.nowMicros();
        }

        assertThat(clock.nowMicros()).isEqualTo(wall.get());
    }
}
