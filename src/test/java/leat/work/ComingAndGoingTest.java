package leat.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

/** A log hears of what comes and goes, and is not filled by it. */
class ComingAndGoingTest {

    private final AtomicLong nanos = new AtomicLong(Long.MAX_VALUE - 5); // nanoTime may wrap
    private final ComingAndGoing device = new ComingAndGoing(nanos::get);

    private void pass(Duration time) {
        nanos.addAndGet(time.toNanos());
    }

    @Test
    void a_loss_an_hour_is_said_each_time_with_its_return() {
        for (int hour = 0; hour < 24; hour++) {
            assertThat(device.lost()).contains("");
            assertThat(device.isReturnNews()).isTrue();
            pass(Duration.ofHours(1));
        }
    }

    @Test
    void a_loose_plug_is_said_five_times_in_ten_minutes_and_then_with_a_number() {
        List<String> said = new ArrayList<>();
        int returns = 0;
        for (int second = 0; second < 1_200; second++) {
            device.lost().ifPresent(said::add);
            returns += device.isReturnNews() ? 1 : 0;
            pass(Duration.ofSeconds(1));
        }

        assertThat(said)
                .containsExactly(
                        "",
                        "",
                        "",
                        "",
                        "; further ones within 10 min are only counted",
                        "; 595 losses before this one were not said",
                        "",
                        "",
                        "",
                        "; further ones within 10 min are only counted");
        assertThat(returns).as("none after a line that further ones are not said").isEqualTo(8);
    }
}
