package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import leat.Gear;
import leat.acquire.RecordingIntake;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Replies that are late, torn or wrong: none of them may become a reading. */
@Timeout(60)
class ModbusNonsenseTest {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration TIMEOUT = Duration.ofMillis(400);

    private final RecordingIntake intake = new RecordingIntake();

    @Test
    void after_a_late_reply_no_reading_carries_another_registers_value() throws Exception {
        FakeDevice.Script lateOnce =
                (number, request, out) -> {
                    if (number == 4) {
                        await().pollDelay(TIMEOUT.plusMillis(50)).until(() -> true);
                    }
                    out.write(FakeDevice.echoOfAddresses(request));
                };
        List<Tap> farApart =
                List.of(
                        Taps.input(Channel.INLET, 40),
                        Taps.input(Channel.BOOSTED, 80),
                        Taps.input(Channel.FILTERED, 120));
        try (FakeDevice device = new FakeDevice(lateOnce);
                ModbusSource source = source(device.port(), farApart)) {
            source.start();

            await().until(() -> intake.readings(Channel.FILTERED).size() >= 20);

            assertThat(intake.values(Channel.INLET)).containsOnly(40.0);
            assertThat(intake.values(Channel.BOOSTED)).containsOnly(80.0);
            assertThat(intake.values(Channel.FILTERED)).containsOnly(120.0);
            assertThat(source.health().faults()).isEqualTo(1);
            assertThat(device.connections()).isEqualTo(2);
            assertThat(intake.losses()).isEmpty();
        }
    }

    /** Ways to answer wrongly; none of them may become a reading. */
    enum Nonsense {
        ENDS_IN_MID_REPLY {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                out.write(good, 0, 9);
                out.close();
            }
        },
        OTHER_UNIT {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[6]++;
                out.write(good);
            }
        },
        OTHER_TRANSACTION {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[1]--;
                out.write(good);
            }
        },
        OTHER_PROTOCOL {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[3] = 1;
                out.write(good);
            }
        },
        OTHER_FUNCTION {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[7] = 3;
                out.write(good);
            }
        },
        EXCEPTION_TO_ANOTHER_FUNCTION {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                byte[] refusal = FakeDevice.exception(good, 2);
                refusal[7] = (byte) 0x83;
                out.write(refusal);
            }
        },
        ONE_REGISTER_OF_TWO {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[5] = 5;
                good[8] = 2;
                out.write(good, 0, 11);
            }
        },
        LENGTH_THAT_ENDS_BEFORE_THE_DATA {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[5] = 5;
                out.write(good, 0, 11);
            }
        },
        ONE_REGISTER_TOO_MANY {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                byte[] longer = Arrays.copyOf(good, good.length + 2);
                longer[5] = 9;
                longer[8] = 6;
                out.write(longer);
            }
        },
        NEGATIVE_LENGTH {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                good[4] = (byte) 0xff;
                out.write(good);
            }
        },
        ANOTHER_PROTOCOL_ALTOGETHER {
            @Override
            void answer(byte[] good, OutputStream out) throws IOException {
                out.write(
                        "HTTP/1.1 400 Bad Request\r\nConnection: close\r\n\r\n"
                                .getBytes(StandardCharsets.US_ASCII));
            }
        };

        abstract void answer(byte[] good, OutputStream out) throws IOException;
    }

    @ParameterizedTest
    @EnumSource
    void nonsense_becomes_a_fault_and_the_next_good_reply_a_reading(Nonsense nonsense)
            throws Exception {
        FakeDevice.Script wrongTwice =
                (number, request, out) -> {
                    byte[] good = FakeDevice.echoOfAddresses(request);
                    if (number == 1 || number == 3) {
                        nonsense.answer(good, out);
                    } else {
                        out.write(good);
                    }
                };
        try (FakeDevice device = new FakeDevice(wrongTwice);
                ModbusSource source = source(device.port(), twoNeighbours())) {
            source.start();

            await().until(() -> intake.readings(Channel.BOOSTED).size() >= 8);

            assertThat(intake.values(Channel.INLET)).containsOnly(3.0);
            assertThat(intake.values(Channel.BOOSTED)).containsOnly(4.0);
            assertThat(intake.readings(Channel.INLET)).allMatch(r -> r.quality().isUsable());
            assertThat(source.health().faults()).isEqualTo(2);
            assertThat(device.connections()).isEqualTo(3);
        }
    }

    static LongStream seeds() {
        return Gear.seeds(1, 6);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void any_garbage_is_a_fault_and_no_reading(long seed) throws Exception {
        Random random = new Random(seed);
        FakeDevice.Script garbage =
                (number, request, out) -> {
                    byte[] bytes = new byte[1 + random.nextInt(300)];
                    random.nextBytes(bytes);
                    out.write(bytes);
                };
        try (FakeDevice device = new FakeDevice(garbage);
                ModbusSource source = source(device.port(), twoNeighbours())) {
            source.start();

            await().until(() -> source.health().faults() >= 4);

            assertThat(intake.readings(Channel.INLET)).as("seed %d", seed).isEmpty();
            assertThat(source.health().lastFault()).doesNotContain("fault in leat");
        }
    }

    @Test
    void a_reply_that_trickles_in_does_not_hold_a_poll_beyond_the_time_out() throws Exception {
        FakeDevice.Script trickling =
                (number, request, out) -> {
                    for (byte one : FakeDevice.echoOfAddresses(request)) {
                        await().pollDelay(Duration.ofMillis(60)).until(() -> true);
                        out.write(one);
                    }
                };
        try (FakeDevice device = new FakeDevice(trickling);
                ModbusSource source = source(device.port(), inlet())) {
            source.start();

            await().until(() -> source.health().faults() >= 1);

            assertThat(source.health().lastFault()).contains("no whole reply within 400 ms");
            assertThat(device.requests()).hasSizeLessThanOrEqualTo(2);
            assertThat(intake.readings(Channel.INLET)).isEmpty();
        }
    }

    private static List<Tap> inlet() {
        return List.of(Taps.input(Channel.INLET, 3));
    }

    private static List<Tap> twoNeighbours() {
        return List.of(
                Taps.input(Channel.INLET, 3),
                Taps.register(Channel.BOOSTED, 1, Table.INPUT_REGISTER, 4, NumberType.UINT16));
    }

    private ModbusSource source(int port, List<Tap> taps) {
        return new ModbusSource(
                Taps.connection(port, POLL, TIMEOUT), taps, intake, new PollingThread());
    }
}
