package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a {@link StateWriter} wrote, a {@link StateReader} takes up bit by bit. */
class StateTest {

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void any_sequence_of_fields_comes_back_the_very_same(long seed) {
        List<Object> fields = fields(new Random(seed), 2000);

        StateReader reader = new StateReader(written(fields));

        for (Object field : fields) {
            assertThat(read(reader, field)).as("seed %d", seed).isEqualTo(field);
        }
        reader.end();
    }

    @Test
    void a_double_keeps_every_bit() {
        StateWriter writer = new StateWriter();
        double strangeNan = Double.longBitsToDouble(0x7ff8_dead_beef_0001L);
        writer.putDouble(-0.0);
        writer.putDouble(strangeNan);
        writer.putDouble(Double.MIN_VALUE);

        StateReader reader = new StateReader(writer.toBytes());

        assertThat(bits(reader.getDouble())).isEqualTo(0x8000_0000_0000_0000L);
        assertThat(bits(reader.getDouble())).isEqualTo(0x7ff8_dead_beef_0001L);
        assertThat(bits(reader.getDouble())).isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(longs = {21, 22, 23})
    void a_state_that_was_cut_off_anywhere_is_refused(long seed) {
        List<Object> fields = fields(new Random(seed), 40);
        byte[] whole = written(fields);

        for (int length = 0; length < whole.length; length++) {
            StateReader reader = new StateReader(Arrays.copyOf(whole, length));
            assertThatThrownBy(() -> readAll(reader, fields))
                    .as("seed %d, %d of %d bytes", seed, length, whole.length)
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("damaged");
        }
    }

    @Test
    void bytes_left_over_are_refused() {
        StateReader reader = new StateReader(new byte[9]);
        reader.getLong();

        assertThatThrownBy(reader::end)
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("1 bytes left over");
    }

    @ParameterizedTest
    @ValueSource(longs = {-1, Integer.MIN_VALUE, Integer.MAX_VALUE, 1L << 40})
    void a_text_of_an_impossible_length_is_refused(long length) {
        StateWriter writer = new StateWriter();
        writer.putLong(length);

        assertThatThrownBy(() -> new StateReader(writer.toBytes()).getText())
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("damaged");
    }

    @ParameterizedTest
    @ValueSource(longs = {31, 32, 33})
    void any_bytes_at_all_are_read_or_refused_but_do_no_harm(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 500; i++) {
            byte[] garbage = new byte[random.nextInt(200)];
            random.nextBytes(garbage);
            List<Object> shape = fields(random, 10);
            StateReader reader = new StateReader(garbage);

            try {
                readAll(reader, shape);
            } catch (RuntimeException e) {
                assertThat(e).as("seed %d", seed).isInstanceOf(IllegalArgumentException.class);
            }
        }
    }

    @Test
    void what_was_written_later_does_not_change_the_bytes_taken_before() {
        StateWriter writer = new StateWriter();
        writer.putInt(1);
        byte[] before = writer.toBytes();

        writer.putInt(2);

        assertThat(before).hasSize(8);
        assertThat(new StateReader(before).getInt()).isEqualTo(1);
    }

    private static List<Object> fields(Random random, int most) {
        List<Object> fields = new ArrayList<>();
        int count = 1 + random.nextInt(most);
        for (int i = 0; i < count; i++) {
            fields.add(
                    switch (random.nextInt(5)) {
                        case 0 -> random.nextLong();
                        case 1 -> random.nextInt();
                        case 2 -> random.nextBoolean();
                        case 3 -> Double.longBitsToDouble(random.nextLong());
                        default -> text(random);
                    });
        }
        return fields;
    }

    private static String text(Random random) {
        StringBuilder text = new StringBuilder();
        int length = random.nextInt(40);
        for (int i = 0; i < length; i++) {
            text.append((char) random.nextInt(Character.MAX_VALUE + 1));
        }
        return text.toString();
    }

    private static byte[] written(List<Object> fields) {
        StateWriter writer = new StateWriter();
        for (Object field : fields) {
            if (field instanceof Long number) {
                writer.putLong(number);
            } else if (field instanceof Integer number) {
                writer.putInt(number);
            } else if (field instanceof Boolean yes) {
                writer.putBoolean(yes);
            } else if (field instanceof Double number) {
                writer.putDouble(number);
            } else {
                writer.putText((String) field);
            }
        }
        return writer.toBytes();
    }

    private static Object read(StateReader reader, Object like) {
        if (like instanceof Long) {
            return reader.getLong();
        }
        if (like instanceof Integer) {
            return reader.getInt();
        }
        if (like instanceof Boolean) {
            return reader.getBoolean();
        }
        return like instanceof Double ? (Object) reader.getDouble() : reader.getText();
    }

    private static void readAll(StateReader reader, List<Object> fields) {
        fields.forEach(field -> read(reader, field));
        reader.end();
    }

    private static long bits(double value) {
        return Double.doubleToRawLongBits(value);
    }
}
