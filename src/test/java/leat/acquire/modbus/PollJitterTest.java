package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PollJitterTest {

    @Test
    void without_polls_everything_is_zero() {
        PollJitter jitter = new PollJitter();

        assertThat(jitter.polls()).isZero();
        assertThat(jitter.p99()).isZero();
        assertThat(jitter.max()).isZero();
    }

    @Test
    void a_poll_before_its_deadline_counts_as_on_time() {
        PollJitter jitter = new PollJitter();

        jitter.add(-5);

        assertThat(jitter.polls()).isEqualTo(1);
        assertThat(jitter.max()).isZero();
    }

    @Test
    void a_rare_late_poll_shows_in_the_maximum_only() {
        PollJitter jitter = new PollJitter();
        for (int i = 0; i < 999; i++) {
            jitter.add(10_000);
        }

        jitter.add(7_000_000);

        assertThat(jitter.p99()).isEqualTo(Duration.ofNanos(10_000));
        assertThat(jitter.max()).isEqualTo(Duration.ofMillis(7));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void quantiles_are_never_below_the_exact_ones_nor_far_above(long seed) {
        Random random = new Random(seed);
        long[] late = new long[2000];
        PollJitter first = new PollJitter();
        PollJitter second = new PollJitter();
        for (int i = 0; i < late.length; i++) {
            late[i] = (long) Math.exp(random.nextDouble() * 23);
            (i % 2 == 0 ? first : second).add(late[i]);
        }

        first.addAll(second);

        Arrays.sort(late);
        assertThat(first.polls()).isEqualTo(2000);
        assertThat(first.max().toNanos()).isEqualTo(late[1999]);
        assertThat(first.p50().toNanos())
                .as("seed %d", seed)
                .isBetween(late[999], late[999] * 17 / 16 + 1000);
        assertThat(first.p99().toNanos())
                .as("seed %d", seed)
                .isBetween(late[1979], late[1979] * 17 / 16 + 1000);
    }

    @Test
    void what_no_poll_can_reach_still_has_a_place() {
        PollJitter jitter = new PollJitter();

        jitter.add(Long.MAX_VALUE / 2);

        assertThat(jitter.polls()).isEqualTo(1);
    }
}
