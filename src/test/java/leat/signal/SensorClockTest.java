package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SensorClockTest {

    private static final long NOON = 1_767_614_400_000_000L; // 2026-01-05T12:00:00Z
    private static final long SECOND = 1_000_000;

    private final SensorClock clock = new SensorClock();

    private long taken(long arrivedMicros, long claimedMicros) {
        Reading reading = Reading.good(Channel.INLET, arrivedMicros, 42).claiming(claimedMicros);
        return clock.timeOf(reading, SECOND);
    }

    @Test
    void a_sensor_that_does_not_say_when_it_sampled_is_taken_at_its_arrival() {
        assertThat(clock.timeOf(Reading.good(Channel.INLET, NOON, 42), SECOND)).isEqualTo(NOON);
        assertThat(clock.offSinceMicros(NOON)).isEqualTo(Gauge.NEVER);
    }

    @ParameterizedTest
    @ValueSource(longs = {-SECOND, -1, 0, 1, SECOND})
    void a_claim_near_its_arrival_is_the_time_of_the_reading(long off) {
        assertThat(taken(NOON, NOON + off)).isEqualTo(NOON + off);
        assertThat(clock.offSinceMicros(NOON)).isEqualTo(Gauge.NEVER);
        assertThat(clock.disbelieved()).isZero();
    }

    @ParameterizedTest
    @ValueSource(longs = {-SECOND - 1, SECOND + 1, 3_600 * SECOND, -NOON})
    void a_claim_further_off_is_not_believed_and_kept_in_mind(long off) {
        assertThat(taken(NOON, NOON + off)).isEqualTo(NOON);
        assertThat(clock.offMicros()).isEqualTo(off);
        assertThat(clock.offSinceMicros(NOON)).isEqualTo(NOON);
        assertThat(clock.disbelieved()).isEqualTo(1);
    }

    @Test
    void claims_at_both_ends_of_time_are_not_believed() {
        assertThat(taken(NOON, Long.MAX_VALUE)).isEqualTo(NOON);
        assertThat(taken(NOON + 1, Long.MIN_VALUE)).isEqualTo(NOON + 1);
        assertThat(clock.disbelieved()).isEqualTo(2);
    }

    @Test
    void it_is_off_from_the_first_wrong_claim_until_a_second_after_the_last() {
        taken(NOON, NOON + 60 * SECOND);
        taken(NOON + SECOND / 2, NOON + SECOND / 2);
        taken(NOON + SECOND, NOON + 60 * SECOND);
        taken(NOON + 2 * SECOND, NOON + 2 * SECOND);

        assertThat(clock.offSinceMicros(NOON + 2 * SECOND)).isEqualTo(NOON);
        assertThat(clock.offSinceMicros(NOON + 2 * SECOND + 1)).isEqualTo(Gauge.NEVER);
    }

    @Test
    void whatever_is_claimed_a_reading_is_taken_within_the_tolerance_of_its_arrival() {
        Random random = new Random(1);
        for (int i = 0; i < 10_000; i++) {
            long off = random.nextLong() >> random.nextInt(64);
            assertThat(Math.abs(taken(NOON + i, NOON + off) - NOON - i)).isLessThan(SECOND + 1);
        }
    }
}
