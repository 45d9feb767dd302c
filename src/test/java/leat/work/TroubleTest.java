package leat.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

/** A log hears of a trouble when it begins, when it changes, and when it is over. */
class TroubleTest {

    private final AtomicLong nanos = new AtomicLong(Long.MAX_VALUE - 5); // nanoTime may wrap
    private final Trouble trouble = new Trouble(Duration.ofMinutes(10), nanos::get);

    @Test
    void a_disk_that_is_full_for_a_night_is_news_once_and_once_when_it_is_over() {
        int news = 0;
        for (int second = 0; second < 8 * 3600; second++) {
            news += trouble.isNews("the disk is full") ? 1 : 0;
            pass(Duration.ofSeconds(1));
        }

        assertThat(news).isEqualTo(1);
        assertThat(trouble.reason()).isEqualTo("the disk is full");
        assertThat(trouble.lasting()).isEqualTo(Duration.ofHours(8));
        assertThat(trouble.over())
                .contains(new Trouble.Past(Duration.ofHours(8), Duration.ofHours(8).toSeconds()));
        assertThat(trouble.over()).isEmpty();
    }

    @Test
    void another_reason_is_news_but_not_every_second() {
        assertThat(trouble.isNews("the disk is full")).isTrue();
        pass(Duration.ofMinutes(1));
        assertThat(trouble.isNews("no right to write")).isFalse();
        pass(Duration.ofMinutes(8));
        assertThat(trouble.isNews("no right to write")).isFalse();
        pass(Duration.ofMinutes(1));

        assertThat(trouble.isNews("no right to write")).isTrue();
        assertThat(trouble.isNews("no right to write")).isFalse();
    }

    @Test
    void a_reason_that_comes_back_before_anybody_heard_of_another_is_no_news() {
        trouble.isNews("the disk is full");
        trouble.isNews("no right to write");
        pass(Duration.ofHours(1));

        assertThat(trouble.isNews("the disk is full")).isFalse();
    }

    @Test
    void a_change_is_news_at_once_where_nothing_else_is_said() {
        Trouble plain = new Trouble();

        assertThat(plain.isNews("refused")).isTrue();
        assertThat(plain.isNews("expired")).isTrue();
        assertThat(plain.isNews("expired")).isFalse();
    }

    @Test
    void what_begins_again_is_news_however_soon() {
        trouble.isNews("refused");
        trouble.over();

        assertThat(trouble.times()).isZero();
        assertThat(trouble.reason()).isEmpty();
        assertThat(trouble.lasting()).isZero();
        assertThat(trouble.isNews("refused")).isTrue();
        assertThat(trouble.times()).isEqualTo(1);
    }

    @Test
    void how_long_it_was_reads_as_people_say_it() {
        assertThat(new Trouble.Past(Duration.ofMillis(470), 1).seconds()).isEqualTo("0.4 s");
        assertThat(new Trouble.Past(Duration.ofMillis(12_900), 1).seconds()).isEqualTo("12 s");
    }

    private void pass(Duration time) {
        nanos.addAndGet(time.toNanos());
    }

    @Test
    void a_trouble_whose_reason_always_changes_is_news_once_in_its_time_for_as_long_as_it_lasts() {
        int news = 0;

        for (int second = 0; second <= 3600; second++) {
            news += trouble.isNews("request " + second + " refused") ? 1 : 0;
            pass(Duration.ofSeconds(1));
        }

        assertThat(news).isEqualTo(1 + 6);
    }
}
