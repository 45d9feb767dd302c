package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import leat.acquire.modbus.FakeDevice.Script;
import leat.acquire.modbus.RegisterSurvey.Aim;
import leat.acquire.modbus.RegisterSurvey.Pace;
import leat.config.Point.Table;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A look at devices that are good, odd, silent and hostile. */
@Timeout(60)
class RegisterSurveyTest {

    private static final Duration REPLY = Duration.ofMillis(200);
    private static final List<Table> BOTH = List.of(Table.INPUT_REGISTER, Table.HOLDING_REGISTER);

    private static Surveyed look(FakeDevice device) throws IOException, InterruptedException {
        Aim aim = new Aim("127.0.0.1", device.port(), 1, BOTH, 0, 9, REPLY);
        return new RegisterSurvey(aim, new Pace(Duration.ZERO, Duration.ZERO, 3)).look();
    }

    private static Surveyed look(Script script) throws IOException, InterruptedException {
        try (FakeDevice device = new FakeDevice(script)) {
            return look(device);
        }
    }

    private static int last(byte[] request) {
        return FakeDevice.word(request, 8) + FakeDevice.word(request, 10) - 1;
    }

    @Test
    void both_tables_are_read_three_times_by_one_request_each_over_one_connection()
            throws Exception {
        try (FakeDevice device =
                new FakeDevice((n, q, out) -> out.write(FakeDevice.echoOfAddresses(q)))) {
            Surveyed seen = look(device);

            assertThat(seen.strips()).hasSize(2);
            assertThat(seen.strips().get(0).reads())
                    .hasSize(3)
                    .allSatisfy(
                            read -> assertThat(read).containsExactly(0, 1, 2, 3, 4, 5, 6, 7, 8, 9));
            assertThat(seen.fault()).isEmpty();
            assertThat(seen.requests()).isEqualTo(6);
            assertThat(device.connections()).isEqualTo(1);
            assertThat(device.requests())
                    .hasSize(6)
                    .allSatisfy(request -> assertThat(request[7]).isBetween((byte) 3, (byte) 4));
        }
    }

    @Test
    void registers_that_are_not_there_are_found_out_and_the_others_are_read_as_one()
            throws Exception {
        Surveyed seen =
                look(
                        (n, q, out) ->
                                out.write(
                                        q[7] == 4 && last(q) < 7
                                                ? FakeDevice.echoOfAddresses(q)
                                                : FakeDevice.exception(q, 2)));

        assertThat(seen.strips()).hasSize(1);
        assertThat(seen.strips().get(0).address()).isZero();
        assertThat(seen.strips().get(0).width()).isEqualTo(7);
        assertThat(seen.refusals())
                .extracting(Surveyed.Refusal::table, Surveyed.Refusal::from, Surveyed.Refusal::to)
                .containsExactly(
                        tuple(Table.INPUT_REGISTER, 7, 9), tuple(Table.HOLDING_REGISTER, 0, 9));
    }

    @Test
    void a_device_that_gives_few_at_once_is_read_in_pieces() throws Exception {
        Surveyed seen =
                look(
                        (n, q, out) ->
                                out.write(
                                        FakeDevice.word(q, 10) <= 2
                                                ? FakeDevice.echoOfAddresses(q)
                                                : FakeDevice.exception(q, 3)));

        assertThat(seen.refusals()).isEmpty();
        assertThat(seen.strips().stream().mapToInt(RegisterStrip::width).sum()).isEqualTo(20);
        assertThat(seen.strips()).allSatisfy(strip -> assertThat(strip.reads()).hasSize(3));
    }

    @Test
    void a_table_that_the_device_does_not_know_is_asked_for_once() throws Exception {
        Surveyed seen = look((n, q, out) -> out.write(FakeDevice.exception(q, 1)));

        assertThat(seen.requests()).isEqualTo(2);
        assertThat(seen.refusals().get(0).meaning()).contains("illegal function");
    }

    @Test
    void silence_ends_the_look_after_three_questions() throws Exception {
        Surveyed seen = look((n, q, out) -> {});

        assertThat(seen.strips()).isEmpty();
        assertThat(seen.requests()).isEqualTo(3);
        assertThat(seen.fault().orElseThrow()).contains("no whole reply", "check the unit id");
    }

    @Test
    void what_came_before_the_silence_is_kept() throws Exception {
        Surveyed seen =
                look(
                        (n, q, out) -> {
                            if (n < 3) {
                                out.write(FakeDevice.echoOfAddresses(q));
                            }
                        });

        assertThat(seen.strips()).hasSize(2);
        assertThat(seen.fault()).isPresent();
    }

    @Test
    void garbage_is_no_register() throws Exception {
        Surveyed seen =
                look((n, q, out) -> out.write("HTTP/1.1 400 Bad Request\r\n\r\n".getBytes()));

        assertThat(seen.strips()).isEmpty();
        assertThat(seen.fault().orElseThrow()).contains("makes no sense", "speaks Modbus TCP");
    }

    @Test
    void what_was_not_asked_for_is_no_register() throws Exception {
        Surveyed seen =
                look(
                        (n, q, out) -> {
                            q[1] ^= 1;
                            out.write(FakeDevice.echoOfAddresses(q));
                        });

        assertThat(seen.strips()).isEmpty();
        assertThat(seen.fault().orElseThrow()).contains("nobody had asked for");
    }

    @Test
    void a_device_that_closes_is_asked_again_and_then_left_alone() throws Exception {
        Surveyed seen =
                look(
                        (n, q, out) -> {
                            throw new IOException("closes");
                        });

        assertThat(seen.requests()).isEqualTo(3);
        assertThat(seen.fault().orElseThrow()).contains("check whether other programs");
    }

    @Test
    void one_that_closes_now_and_then_is_read_all_the_same() throws Exception {
        Surveyed seen =
                look(
                        (n, q, out) -> {
                            if (n == 1 || n == 4) {
                                throw new IOException("closes");
                            }
                            out.write(FakeDevice.echoOfAddresses(q));
                        });

        assertThat(seen.fault()).isEmpty();
        assertThat(seen.strips()).allSatisfy(strip -> assertThat(strip.reads()).hasSize(3));
    }

    @Test
    void a_port_where_nobody_listens_is_tried_once() throws Exception {
        FakeDevice gone = new FakeDevice((n, q, out) -> {});
        gone.close();

        Surveyed seen = look(gone);

        assertThat(seen.requests()).isEqualTo(1);
        assertThat(seen.fault().orElseThrow()).contains("check the port");
    }
}
