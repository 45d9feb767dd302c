package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import leat.store.Message;
import org.junit.jupiter.api.Test;

/** A message is given up when it is old and its route has failed for long enough to say so. */
class PatienceTest {

    private static boolean isOver(Duration giveUpAfter, Duration age, Duration failing) {
        Message message = Changes.message(1);
        long now = message.atMicros() + age.toNanos() / 1_000;
        return new Patience(giveUpAfter, () -> now).isOver(message, failing);
    }

    @Test
    void an_old_message_is_still_tried_for_an_hour() {
        Duration threeDays = Duration.ofHours(72);

        assertThat(isOver(threeDays, threeDays, Duration.ofMinutes(59))).isFalse();
        assertThat(isOver(threeDays, threeDays, Duration.ofMinutes(60))).isTrue();
        assertThat(isOver(threeDays, threeDays.minusSeconds(1), threeDays)).isFalse();
    }

    @Test
    void a_patience_of_less_than_an_hour_is_over_when_it_says() {
        Duration ten = Duration.ofMinutes(10);

        assertThat(isOver(ten, ten, ten)).isTrue();
        assertThat(isOver(ten, ten, ten.minusSeconds(1))).isFalse();
    }
}
