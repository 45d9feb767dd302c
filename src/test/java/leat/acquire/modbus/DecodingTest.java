package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Bit patterns of float32: IEEE 754 binary32. Registers are big-endian: MODBUS Application Protocol
 * Specification V1.1b3, 4.2. The specification does not fix the order of two registers.
 */
class DecodingTest {

    @ParameterizedTest
    @CsvSource({
        "40.0,    4220 0000, 0000 4220, 2042 0000, 0000 2042",
        "80.0,    42A0 0000, 0000 42A0, A042 0000, 0000 A042",
        "123.456, 42F6 E979, E979 42F6, F642 79E9, 79E9 F642",
        "0.1,     3DCC CCCD, CCCD 3DCC, CC3D CDCC, CDCC CC3D",
        "-1.5,    BFC0 0000, 0000 BFC0, C0BF 0000, 0000 C0BF"
    })
    void float32_is_read_in_each_word_order(
            float value, String abcd, String cdab, String badc, String dcba) {
        assertThat(float32(WordOrder.ABCD, abcd)).isEqualTo(value);
        assertThat(float32(WordOrder.CDAB, cdab)).isEqualTo(value);
        assertThat(float32(WordOrder.BADC, badc)).isEqualTo(value);
        assertThat(float32(WordOrder.DCBA, dcba)).isEqualTo(value);
    }

    @ParameterizedTest
    @CsvSource({
        "0000 4220, 2.372e-41",
        "0000 42A0, 2.390e-41",
        "E979 42F6, -1.883e+25",
        "CCCD 3DCC, -1.076e+08",
        "0000 BFC0, 6.879e-41"
    })
    void a_wrong_word_order_reads_as_something_absurd(String cdab, double absurd) {
        double number = float32(WordOrder.ABCD, cdab);

        assertThat(number).isCloseTo(absurd, within(Math.abs(absurd) * 1e-3));
    }

    @ParameterizedTest
    @CsvSource({"FFFF, -1, 65535", "8000, -32768, 32768", "FF9C, -100, 65436", "0064, 100, 100"})
    void sixteen_bits_are_signed_or_not(String word, double signed, double unsigned) {
        assertThat(number(NumberType.INT16, WordOrder.ABCD, word)).isEqualTo(signed);
        assertThat(number(NumberType.UINT16, WordOrder.DCBA, word)).isEqualTo(unsigned);
    }

    @ParameterizedTest
    @CsvSource({
        "ABCD, 0001 E240, 123456, 123456",
        "CDAB, E240 0001, 123456, 123456",
        "BADC, 0100 40E2, 123456, 123456",
        "DCBA, 40E2 0100, 123456, 123456",
        "ABCD, FFFF FF9C, -100, 4294967196",
        "CDAB, FF9C FFFF, -100, 4294967196",
        "ABCD, 8000 0000, -2147483648, 2147483648",
        "CDAB, 8000 0000, 32768, 32768"
    })
    void thirty_two_bits_are_signed_or_not_in_each_word_order(
            WordOrder order, String words, double signed, double unsigned) {
        assertThat(number(NumberType.INT32, order, words)).isEqualTo(signed);
        assertThat(number(NumberType.UINT32, order, words)).isEqualTo(unsigned);
    }

    @Test
    void a_number_within_a_block_is_found_by_its_offset() {
        int[] words = {1, 2, 0x4220, 0};

        assertThat(new Decoding(NumberType.FLOAT32, WordOrder.ABCD).number(words, 2))
                .isEqualTo(40.0);
    }

    @Test
    void a_float_that_is_no_number_stays_no_number() {
        assertThat(float32(WordOrder.ABCD, "7FC0 0000")).isNaN();
        assertThat(float32(WordOrder.ABCD, "7F80 0000")).isInfinite();
    }

    @ParameterizedTest
    @EnumSource(names = {"COIL", "DISCRETE_INPUT"})
    void a_bit_is_0_or_1_whatever_type_is_written_beside_it(Table table) {
        Register bit = new Register(1, table, 0, NumberType.FLOAT32, WordOrder.CDAB);

        assertThat(Decoding.of(bit).number(new int[] {1}, 0)).isEqualTo(1);
    }

    private static double float32(WordOrder order, String words) {
        return number(NumberType.FLOAT32, order, words);
    }

    private static double number(NumberType type, WordOrder order, String words) {
        String[] hex = words.trim().split(" ");
        int[] registers = new int[hex.length];
        for (int i = 0; i < hex.length; i++) {
            registers[i] = Integer.parseInt(hex[i], 16);
        }
        return new Decoding(type, order).number(registers, 0);
    }
}
