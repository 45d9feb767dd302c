package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
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
 */
class PublishedFramesTest {

    @Test
    void fc01_reads_coils_20_to_38() throws Exception {
        Block block = block(Table.COIL, 0x13, 19);

        assertThat(question(block, "fc01_req")).isEqualTo(frame("fc01_req"));
        assertThat(on(answer(block, "fc01_rsp"), 20))
                .containsExactly(20, 22, 23, 26, 27, 28, 29, 31, 33, 34, 36, 38);
    }

    @Test
    void fc02_reads_discrete_inputs_197_to_218() throws Exception {
        Block block = block(Table.DISCRETE_INPUT, 0xC4, 22);

        assertThat(question(block, "fc02_req")).isEqualTo(frame("fc02_req"));
        assertThat(on(answer(block, "fc02_rsp"), 197))
                .containsExactly(
                        199, 200, 202, 204, 205, 206, 208, 209, 211, 212, 213, 215, 217, 218);
    }

    @Test
    void fc03_reads_holding_registers_108_to_110() throws Exception {
        Block block = block(Table.HOLDING_REGISTER, 0x6B, 3);

        assertThat(question(block, "fc03_req")).isEqualTo(frame("fc03_req"));
        assertThat(answer(block, "fc03_rsp")).containsExactly(555, 0, 100);
    }

    @Test
    void fc04_reads_input_register_9() throws Exception {
        Block block = block(Table.INPUT_REGISTER, 8, 1);

        assertThat(question(block, "fc04_req")).isEqualTo(frame("fc04_req"));
        assertThat(answer(block, "fc04_rsp")).containsExactly(10);
    }

    @Test
    void an_exception_says_illegal_data_address() throws Exception {
        Block block = block(Table.COIL, 0x4A1, 1);

        assertThat(question(block, "fc01_exc_req")).isEqualTo(frame("fc01_exc_req"));
        assertThatThrownBy(() -> answer(block, "fc01_exc_rsp"))
                .isInstanceOf(DeviceRefused.class)
                .satisfies(e -> assertThat(words(e)).contains("illegal data address"));
    }

    @Test
    void a_request_for_125_registers_is_sent_as_published() throws Exception {
        assertThat(question(block(Table.HOLDING_REGISTER, 0, 125), "max_req"))
                .isEqualTo(frame("max_req"));
    }

    @Test
    void a_request_for_126_registers_cannot_be_made_and_its_refusal_is_understood() {
        assertThatThrownBy(() -> block(Table.HOLDING_REGISTER, 0, 126))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> answer(block(Table.HOLDING_REGISTER, 0, 125), "over_rsp"))
                .isInstanceOf(DeviceRefused.class)
                .satisfies(e -> assertThat(words(e)).contains("illegal data value"));
    }

    @Test
    void the_longest_answer_is_one_frame_and_each_part_of_it_is_none_yet() throws Exception {
        Block block = block(Table.HOLDING_REGISTER, 0, 125);
        byte[] request = new byte[Frames.QUESTION_BYTES];
        Frames.question(ByteBuffer.wrap(request), 0xABCD, block);
        byte[] reply = FakeDevice.echoOfAddresses(request);
        ByteBuffer in = ByteBuffer.allocate(Frames.LONGEST_BYTES);

        for (byte one : reply) {
            assertThat(Frames.length(in)).isEqualTo(in.position() < 6 ? 0 : reply.length);
            in.put(one);
        }

        assertThat(Frames.length(in)).isEqualTo(in.position());
        assertThat(Frames.answer(in, 0xABCD, block)).hasSize(125).startsWith(0, 1).endsWith(124);
    }

    private static byte[] question(Block block, String name) throws IOException {
        ByteBuffer out = ByteBuffer.allocate(Frames.QUESTION_BYTES);
        Frames.question(out, id(frame(name)), block);
        return out.array();
    }

    private static int[] answer(Block block, String name) throws Exception {
        byte[] published = frame(name);
        ByteBuffer in = ByteBuffer.allocate(Frames.LONGEST_BYTES);
        in.put(published);
        assertThat(Frames.length(in)).as("its own length").isEqualTo(published.length);
        return Frames.answer(in, id(published), block);
    }

    private static int id(byte[] frame) {
        return FakeDevice.word(frame, 0);
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
            return HexFormat.ofDelimiter(" ").parseHex(line.split(",")[1]);
        }
    }
}
