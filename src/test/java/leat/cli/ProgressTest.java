package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.concurrent.atomic.AtomicLong;
import leat.replay.Past;
import leat.signal.Tick;
import org.junit.jupiter.api.Test;

class ProgressTest {

    private static final int INPUTS = 1 << 17;

    private final StringWriter err = new StringWriter();
    private final AtomicLong nanos = new AtomicLong();

    /** Each input takes a time of its own. */
    private Past past(long nanosEach) {
        return into -> {
            for (int i = 0; i < INPUTS; i++) {
                nanos.addAndGet(nanosEach);
                into.accept(new Tick(i * Tick.PERIOD_MICROS));
            }
        };
    }

    private long read(boolean terminal, long nanosEach) {
        AtomicLong count = new AtomicLong();
        try (Progress progress = new Progress(new PrintWriter(err, true), terminal, nanos::get)) {
            progress.of("jet-1", INPUTS, past(nanosEach)).read(input -> count.incrementAndGet());
        }
        return count.get();
    }

    @Test
    void a_terminal_sees_how_far_it_has_come_and_the_line_is_wiped_at_the_end() {
        long read = read(true, 50_000);

        assertThat(read).isEqualTo(INPUTS);
        assertThat(err.toString()).contains("jet-1: 12 % of 131,072 inputs", "jet-1: 100 %");
        assertThat(err.toString()).endsWith(" \r").doesNotContain("\n");
    }

    @Test
    void it_is_shown_no_oftener_than_twice_a_second() {
        read(true, 10_000); // 1.3 s in all

        assertThat(err.toString().split("jet-1", -1)).hasSize(3);
    }

    @Test
    void short_work_and_work_without_a_terminal_stay_silent() {
        long unseen = read(false, 50_000);
        long fast = read(true, 1_000);

        assertThat(unseen).isEqualTo(INPUTS);
        assertThat(fast).isEqualTo(INPUTS);
        assertThat(err.toString()).isEmpty();
    }
}
