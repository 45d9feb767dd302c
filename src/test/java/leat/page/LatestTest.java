package leat.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.Test;

class LatestTest {

    private static final Snapshot SOME =
            new Snapshot(
                    Map.of(),
                    Answer.plain(200, "page"),
                    Answer.plain(200, "health"),
                    Answer.plain(200, "metrics"));

    @Test
    void who_comes_first_waits_until_there_is_something_to_show() throws Exception {
        Latest latest = new Latest();
        Thread look = new Thread(() -> latest.put(SOME), "look");

        look.start();

        assertThat(latest.now()).contains(SOME);
        look.join();
        assertThat(latest.now()).contains(SOME);
        assertThat(latest.isWanted()).isTrue();
    }

    @Test
    void a_stream_gets_each_one_once_and_ends_at_the_end() throws Exception {
        Latest latest = new Latest();
        latest.put(SOME);

        assertThat(latest.after(0, Duration.ZERO).orElseThrow().number()).isEqualTo(1);
        assertThat(latest.after(1, Duration.ofMillis(1))).isEmpty();
        latest.put(SOME);
        assertThat(latest.after(1, Duration.ZERO).orElseThrow().number()).isEqualTo(2);
        latest.close();
        assertThat(latest.after(0, Duration.ofSeconds(9))).isEmpty();
    }
}
