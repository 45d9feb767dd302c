package leat.segment;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import java.util.zip.CRC32;
import leat.Gear;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.store.RandomStory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class SegmentsTest {

    private static final long NEW_YEAR = 1_767_225_600_000_000L;

    static LongStream seeds() {
        return Gear.seeds(20, 1_000);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void inputs_of_every_kind_come_back_to_the_bit(long seed) throws DamagedSegment {
        RandomStory story = new RandomStory(seed);
        List<Input> inputs = new ArrayList<>();
        for (int n = new Random(seed).nextInt(400); n >= 0; n--) {
            inputs.add(story.input());
        }

        byte[] segment = Segments.write(inputs);

        assertThat(read(segment)).isEqualTo(inputs);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void polls_with_jitter_gaps_and_bad_spells_come_back_to_the_bit(long seed)
            throws DamagedSegment {
        List<Input> inputs = new DrawnPolls(seed).inputs(3_000);

        byte[] segment = Segments.write(inputs);

        assertThat(read(segment)).isEqualTo(inputs);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void what_is_damaged_is_found(long seed) {
        byte[] segment = Segments.write(new DrawnPolls(seed).inputs(50));
        Random random = new Random(seed);
        byte[] damaged = segment.clone();
        damaged[random.nextInt(damaged.length)] ^= (byte) (1 << random.nextInt(8));
        byte[] cut = Arrays.copyOf(segment, random.nextInt(segment.length));

        assertThatThrownBy(() -> read(damaged)).isInstanceOf(DamagedSegment.class);
        assertThatThrownBy(() -> read(cut)).isInstanceOf(DamagedSegment.class);
    }

    /** A right checksum is no promise: whoever makes one can put anything under it. */
    @ParameterizedTest
    @MethodSource("seeds")
    void garbage_under_a_right_checksum_is_no_crash(long seed) {
        byte[] segment = Segments.write(new DrawnPolls(seed).inputs(50));
        Random random = new Random(seed);
        for (int n = 0; n < 3; n++) {
            segment[5 + random.nextInt(segment.length - 9)] = (byte) random.nextInt();
        }
        Sink sealed = new Sink();
        sealed.bytes(segment, segment.length - 4);
        CRC32 checksum = new CRC32();
        checksum.update(sealed.array(), 0, sealed.size());
        sealed.fixed((int) checksum.getValue());

        Throwable thrown = catchThrowable(() -> read(sealed.copy()));

        if (thrown != null) {
            assertThat(thrown).isInstanceOf(DamagedSegment.class);
        }
    }

    @Test
    void version_of_a_newer_leat_is_told() {
        Sink newer = new Sink();
        newer.bytes(new byte[] {'l', 'e', 'a', 't', 2, 0}, 6);
        CRC32 checksum = new CRC32();
        checksum.update(newer.array(), 0, newer.size());
        newer.fixed((int) checksum.getValue());

        assertThatThrownBy(() -> read(newer.copy()))
                .isInstanceOf(DamagedSegment.class)
                .hasMessageContaining("version");
    }

    @Test
    void ticks_alone_and_a_single_reading_come_back() throws DamagedSegment {
        List<Input> ticks = List.of(new Tick(NEW_YEAR), new Tick(NEW_YEAR + 1_000_000));
        List<Input> single = List.of(Reading.bad(Channel.INLET, 7, Quality.LOOP_BROKEN));

        assertThat(read(Segments.write(ticks))).isEqualTo(ticks);
        assertThat(read(Segments.write(single))).isEqualTo(single);
    }

    private static List<Input> read(byte[] segment) throws DamagedSegment {
        List<Input> inputs = new ArrayList<>();
        Segments.read(segment, inputs::add);
        return inputs;
    }
}
