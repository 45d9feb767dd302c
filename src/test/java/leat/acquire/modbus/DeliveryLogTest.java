package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import leat.Gear;
import leat.acquire.Intake;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.SourceBack;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

/** It takes a second of real silence to be lost. */
@Tag(Gear.THOROUGH)
class DeliveryLogTest {

    private static final int TIMES = 8;

    private final ListAppender<ILoggingEvent> log = new ListAppender<>();
    private final List<Input> offered = new ArrayList<>();

    @BeforeEach
    void record_the_log() {
        log.start();
        ((Logger) LoggerFactory.getLogger(Delivery.class)).setLevel(Level.INFO);
        ((Logger) LoggerFactory.getLogger(Delivery.class)).addAppender(log);
    }

    @AfterEach
    void stop_recording() {
        ((Logger) LoggerFactory.getLogger(Delivery.class)).detachAppender(log);
        ((Logger) LoggerFactory.getLogger(Delivery.class)).setLevel(null);
    }

    private final class Kept implements Intake {
        @Override
        public long nowMicros() {
            return 0;
        }

        @Override
        public boolean offer(String machine, Input input) {
            return offered.add(input);
        }
    }

    @Test
    void device_that_comes_and_goes_does_not_fill_the_log() {
        Tap tap = Taps.input(Channel.INLET, 0);
        Block block = ReadPlan.of(List.of(tap)).blocks().get(0);
        Delivery delivery =
                new Delivery(
                        "plc:502",
                        Duration.ofMillis(50),
                        List.of(tap),
                        new Kept(),
                        new PollCounts());
        delivery.begin(System.nanoTime());

        for (int i = 1; i <= TIMES; i++) {
            int inputs = 3 * i - 2;
            await().until(
                            () -> {
                                delivery.silent(
                                        block,
                                        new LinkFault(LinkFault.Failure.HUNG_UP, "no answer"));
                                return offered.size() == inputs;
                            });
            delivery.words(block, 0, new int[] {40});
        }

        assertThat(offered).filteredOn(SourceBack.class::isInstance).hasSize(TIMES);
        assertThat(log.list).hasSize(2 * 5 - 1);
    }
}
