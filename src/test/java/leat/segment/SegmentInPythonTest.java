package leat.segment;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import leat.Gear;
import leat.interop.Peer;
import leat.json.RecordJson;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.store.RandomStory;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The text of src/docs/segment.md is enough to read a segment: a program made of it alone does. */
@Timeout(60)
class SegmentInPythonTest {

    @TempDir Path folder;

    static LongStream seeds() {
        return Gear.seeds(3, 60);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void a_program_of_plain_python_reads_what_leat_wrote(long seed)
            throws IOException, InterruptedException {
        List<Input> inputs = new ArrayList<>(new DrawnPolls(seed).inputs(400));
        RandomStory story = new RandomStory(seed);
        for (int n = 0; n < 300; n++) {
            inputs.add(story.input());
        }
        Path file = Files.write(folder.resolve("segment"), Segments.write(inputs));

        Process python =
                new ProcessBuilder(
                                Peer.require("python3").toString(),
                                "src/test/python/segment.py",
                                file.toString())
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        String printed = new String(python.getInputStream().readAllBytes(), UTF_8);

        assertThat(python.waitFor()).isZero();
        assertThat(printed.lines().toList()).isEqualTo(inputs.stream().map(this::line).toList());
    }

    private String line(Input input) {
        Line line = new Line();
        input.to(line);
        return line.cells.stream().map(Object::toString).collect(Collectors.joining(","));
    }

    private static final class Line implements Input.Receiver {
        private final List<Object> cells = new ArrayList<>();

        @Override
        public void reading(Reading reading) {
            cells.add(reading.channel().code());
            cells.add(reading.atMicros());
            cells.add(hex(ByteBuffer.allocate(8).putDouble(reading.value()).array()));
            cells.add(reading.quality().code());
            cells.add(
                    reading.claimedMicros().isPresent() ? reading.claimedMicros().getAsLong() : "");
        }

        @Override
        public void tick(Tick tick) {
            cells.addAll(List.of(100, tick.atMicros()));
        }

        @Override
        public void sourceLost(SourceLost lost) {
            cells.addAll(List.of(200 + lost.channel().code(), lost.atMicros()));
            cells.add(text(lost.reason()));
        }

        @Override
        public void sourceBack(SourceBack back) {
            cells.addAll(List.of(300 + back.channel().code(), back.atMicros()));
        }

        @Override
        public void clockStep(ClockStep step) {
            cells.addAll(List.of(110, step.atMicros(), step.fromMicros()));
        }

        @Override
        public void instruction(Instruction instruction) {
            cells.addAll(List.of(140, instruction.atMicros(), text(instruction.by())));
            cells.add(text(RecordJson.write(Order.class, instruction.order())));
        }

        /** UTF-16BE of whatever chars there are, pairs or halves. */
        private static String text(String text) {
            ByteBuffer bytes = ByteBuffer.allocate(2 * text.length());
            text.chars().forEach(unit -> bytes.putShort((short) unit));
            return hex(bytes.array());
        }

        private static String hex(byte[] bytes) {
            return HexFormat.of().formatHex(bytes);
        }
    }
}
