package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;

/**
 * The example frames of the MODBUS Application Protocol Specification V1.1b3 (sections 6.1 to 6.4
 * and 7), with the MBAP header of the MODBUS Messaging on TCP/IP Implementation Guide V1.0b, 3.1.3.
 * Transaction ids are free. Against a socket that answers with the published bytes.
 */
class PublishedFramesTest {

    @Test
    void fc01_reads_coils_20_to_38() throws Exception {
        Exchange exchange = exchange("fc01_rsp", block(Table.COIL, 0x13, 19));

        assertThat(exchange.request).isEqualTo(frame("fc01_req"));
        assertThat(on(exchange.words, 20))
                .containsExactly(20, 22, 23, 26, 27, 28, 29, 31, 33, 34, 36, 38);
    }

    @Test
    void fc02_reads_discrete_inputs_197_to_218() throws Exception {
        Exchange exchange = exchange("fc02_rsp", block(Table.DISCRETE_INPUT, 0xC4, 22));

        assertThat(exchange.request).isEqualTo(frame("fc02_req"));
        assertThat(on(exchange.words, 197))
                .containsExactly(
                        199, 200, 202, 204, 205, 206, 208, 209, 211, 212, 213, 215, 217, 218);
    }

    @Test
    void fc03_reads_holding_registers_108_to_110() throws Exception {
        Exchange exchange = exchange("fc03_rsp", block(Table.HOLDING_REGISTER, 0x6B, 3));

        assertThat(exchange.request).isEqualTo(frame("fc03_req"));
        assertThat(exchange.words).containsExactly(555, 0, 100);
    }

    @Test
    void fc04_reads_input_register_9() throws Exception {
        Exchange exchange = exchange("fc04_rsp", block(Table.INPUT_REGISTER, 8, 1));

        assertThat(exchange.request).isEqualTo(frame("fc04_req"));
        assertThat(exchange.words).containsExactly(10);
    }

    @Test
    void an_exception_says_illegal_data_address() throws Exception {
        try (FakeDevice device = answering("fc01_exc_rsp")) {
            Link link = opened(device);

            assertThatThrownBy(() -> link.read(block(Table.COIL, 0x4A1, 1)))
                    .isInstanceOf(DeviceRefused.class)
                    .satisfies(e -> assertThat(words(e)).contains("illegal data address"));

            assertThat(link.isOpen()).isTrue();
            assertThat(withoutId(device.requests().get(0))).isEqualTo(frame("fc01_exc_req"));
            link.close();
        }
    }

    @Test
    void a_request_for_125_registers_is_sent_as_published() throws Exception {
        try (FakeDevice device =
                new FakeDevice(
                        (number, request, out) -> out.write(FakeDevice.echoOfAddresses(request)))) {
            Link link = opened(device);

            int[] words = link.read(block(Table.HOLDING_REGISTER, 0, 125));

            assertThat(words).hasSize(125).endsWith(123, 124);
            assertThat(withoutId(device.requests().get(0))).isEqualTo(frame("max_req"));
            link.close();
        }
    }

    @Test
    void a_request_for_126_registers_cannot_be_made_and_its_refusal_is_understood()
            throws Exception {
        assertThatThrownBy(() -> block(Table.HOLDING_REGISTER, 0, 126))
                .isInstanceOf(IllegalArgumentException.class);
        try (FakeDevice device = answering("over_rsp")) {
            Link link = opened(device);

            assertThatThrownBy(() -> link.read(block(Table.HOLDING_REGISTER, 0, 125)))
                    .isInstanceOf(DeviceRefused.class)
                    .satisfies(e -> assertThat(words(e)).contains("illegal data value"));
            link.close();
        }
    }

    private record Exchange(byte[] request, int[] words) {}

    private static Exchange exchange(String reply, Block block) throws Exception {
        try (FakeDevice device = answering(reply)) {
            Link link = opened(device);
            int[] words = link.read(block);
            link.close();
            return new Exchange(withoutId(device.requests().get(0)), words);
        }
    }

    private static FakeDevice answering(String reply) throws IOException {
        byte[] published = frame(reply);
        return new FakeDevice(
                (number, request, out) -> {
                    byte[] answer = published.clone();
                    answer[0] = request[0];
                    answer[1] = request[1];
                    out.write(answer);
                });
    }

    private static Link opened(FakeDevice device) throws LinkFault {
        Link link = new Link("127.0.0.1", device.port(), Duration.ofSeconds(5));
        link.open();
        return link;
    }

    private static Block block(Table table, int address, int count) {
        Tap tap = Taps.register(Channel.INLET, 1, table, address, NumberType.UINT16);
        return new Block(1, table, address, count, List.of(tap));
    }

    private static String words(Throwable refusal) {
        return ((DeviceRefused) refusal).words();
    }

    private static List<Integer> on(int[] bits, int first) {
        List<Integer> on = new ArrayList<>();
        for (int i = 0; i < bits.length; i++) {
            if (bits[i] != 0) {
                on.add(first + i);
            }
        }
        return on;
    }

    private static byte[] frame(String name) throws IOException {
        try (InputStream in = PublishedFramesTest.class.getResourceAsStream("frames.csv")) {
            String csv = new String(in.readAllBytes(), StandardCharsets.US_ASCII);
            String line =
                    Stream.of(csv.split("\n"))
                            .filter(row -> row.startsWith(name + ","))
                            .findFirst()
                            .orElseThrow();
            return withoutId(HexFormat.ofDelimiter(" ").parseHex(line.split(",")[1]));
        }
    }

    private static byte[] withoutId(byte[] frame) {
        byte[] copy = Arrays.copyOf(frame, frame.length);
        copy[0] = 0;
        copy[1] = 0;
        return copy;
    }
}
