package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.time.Duration;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import leat.acquire.RecordingIntake;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A device that sends frames which nobody asked for: none of them may become a reading. */
@Timeout(60)
class ModbusUnaskedTest {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration TIMEOUT = Duration.ofMillis(400);
    private static final int WRONG = 999;
    private static final int ENOUGH = 20;

    private final RecordingIntake intake = new RecordingIntake();

    /** What a stranger who has seen the last two transaction ids may take the next one to be. */
    enum Guess {
        THE_SAME_AGAIN {
            @Override
            int next(int last, int lastButOne) {
                return last;
            }
        },
        ONE_MORE {
            @Override
            int next(int last, int lastButOne) {
                return last + 1;
            }
        },
        THE_SAME_STEP {
            @Override
            int next(int last, int lastButOne) {
                return 2 * last - lastButOne;
            }
        };

        abstract int next(int last, int lastButOne);
    }

    @Test
    void a_frame_that_lies_there_before_the_question_is_no_answer() throws Exception {
        FakeDevice.Script aheadOfTheNext =
                (number, request, out) -> {
                    out.write(FakeDevice.echoOfAddresses(request));
                    out.write(forged(request, FakeDevice.word(request, 0) + 1));
                };
        try (FakeDevice device = new FakeDevice(aheadOfTheNext);
                ModbusSource source = source(device.port())) {
            source.start();

            await().until(() -> intake.readings(Channel.INLET).size() >= ENOUGH);

            onlyAnswersAreValues(device, source);
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_frame_that_comes_between_the_look_and_the_question_is_no_answer(Guess guess)
            throws Exception {
        AtomicInteger last = new AtomicInteger();
        AtomicInteger lastButOne = new AtomicInteger();
        FakeDevice.Script aheadOfTheAnswer =
                (number, request, out) -> {
                    if (number % 2 == 1) {
                        out.write(forged(request, guess.next(last.get(), lastButOne.get())));
                    }
                    out.write(FakeDevice.echoOfAddresses(request));
                    lastButOne.set(last.getAndSet(FakeDevice.word(request, 0)));
                };
        try (FakeDevice device = new FakeDevice(aheadOfTheAnswer);
                ModbusSource source = source(device.port())) {
            source.start();

            await().until(() -> intake.readings(Channel.INLET).size() >= ENOUGH);

            onlyAnswersAreValues(device, source);
        }
    }

    @Test
    void a_device_that_talks_before_its_first_question_is_lost_with_what_to_check()
            throws Exception {
        byte[] first = {0, 1, 0, 0, 0, 5, 1, 4, 2, (byte) (WRONG >>> 8), (byte) WRONG};
        try (FakeDevice device = new FakeDevice((number, request, out) -> {}, first);
                ModbusSource source = source(device.port())) {
            source.start();

            await().until(() -> intake.losses().size() == 1);

            assertThat(intake.losses().get(0).reason())
                    .contains("127.0.0.1:" + device.port(), "unit 1, input register 3")
                    .contains("nobody had asked", "check that no other device has its address");
            assertThat(intake.readings(Channel.INLET)).isEmpty();
        }
    }

    private void onlyAnswersAreValues(FakeDevice device, ModbusSource source) {
        assertThat(intake.values(Channel.INLET)).containsOnly(3.0);
        assertThat(intake.losses()).isEmpty();
        assertThat(source.health().faults()).isGreaterThanOrEqualTo(ENOUGH / 2 - 1);
        assertThat(source.health().lastFault())
                .contains("127.0.0.1:" + device.port(), "nobody had asked");
        assertThat(device.connections()).isGreaterThanOrEqualTo(ENOUGH / 2);
    }

    private static byte[] forged(byte[] request, int transactionId) {
        byte[] frame = FakeDevice.reply(request, address -> WRONG);
        frame[0] = (byte) (transactionId >>> 8);
        frame[1] = (byte) transactionId;
        return frame;
    }

    private ModbusSource source(int port) {
        List<Tap> inlet = List.of(Taps.input(Channel.INLET, 3));
        return new ModbusSource(
                Taps.connection(port, POLL, TIMEOUT), inlet, intake, new PollingThread());
    }
}
