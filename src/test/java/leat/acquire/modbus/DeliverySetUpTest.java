package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import leat.acquire.Intake;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

/** A channel that reads nonsense from the first poll on is shown in the log as it came. */
class DeliverySetUpTest {

    private final ListAppender<ILoggingEvent> log = new ListAppender<>();

    @BeforeEach
    void record_the_log() {
        log.start();
        ((Logger) LoggerFactory.getLogger(Delivery.class)).addAppender(log);
    }

    @AfterEach
    void stop_recording() {
        ((Logger) LoggerFactory.getLogger(Delivery.class)).detachAppender(log);
    }

    /** Takes everything. */
    private static final class Sink implements Intake {
        @Override
        public long nowMicros() {
            return 0;
        }

        @Override
        public boolean offer(String machine, Input input) {
            return true;
        }
    }

    @Test
    void registers_in_the_wrong_word_order_are_logged_once_with_what_to_check() {
        Register register =
                new Register(1, Table.INPUT_REGISTER, 8, NumberType.FLOAT32, WordOrder.ABCD);
        Tap tap =
                Taps.tap(
                        Channel.INLET,
                        register,
                        new Transducer(Optional.empty(), TwoPoint.IDENTITY, -20, 250));
        Block block = ReadPlan.of(List.of(tap)).blocks().get(0);
        Delivery delivery =
                new Delivery(
                        "plc:502",
                        Duration.ofMillis(50),
                        List.of(tap),
                        new Sink(),
                        new PollCounts());

        delivery.words(block, 0, new int[] {0x0000, 0x4220});
        delivery.words(block, 50_000, new int[] {0x0000, 0x4221});

        assertThat(log.list)
                .extracting(ILoggingEvent::getFormattedMessage)
                .containsExactly(
                        "jet-1 inlet does not read right: plc:502, unit 1, input register 8 gives"
                                + " 0x0000 0x4220 = 2.37e-41 = 2.37e-41 psi, expected -20 to 250"
                                + " psi: check wiring, word order, type, scaling and address");
    }
}
