package leat.instruct;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

class TallyTest {

    private final Logger log = (Logger) LoggerFactory.getLogger(TallyTest.class);
    private final ListAppender<ILoggingEvent> said = new ListAppender<>();
    private final AtomicLong nanos = new AtomicLong(-77);
    private final Tally tally = new Tally(log, nanos::get);

    @BeforeEach
    void record_the_log() {
        said.start();
        log.addAppender(said);
    }

    @AfterEach
    void stop_recording() {
        log.detachAppender(said);
    }

    @Test
    void a_flood_of_forged_instructions_is_a_line_a_minute_in_the_log() {
        for (int i = 0; i < 10_000; i++) {
            tally.refused(Tally.End.UNSIGNED, "");
            nanos.addAndGet(60_000_000); // 16 a second, for ten minutes
        }

        assertThat(said.list).hasSize(10);
        assertThat(tally.health().unsigned()).isEqualTo(10_000);
    }
}
