package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.WordOrder;

/**
 * How the number of a channel is made from the registers that a device sent. A single register is
 * big-endian (MODBUS Application Protocol Specification V1.1b3, 4.2); the order of the two
 * registers of a 32-bit number, and of the bytes in them, is the device maker's choice. Immutable.
 *
 * @param type what the registers hold
 * @param order order of the four bytes over the wire; without meaning for 16 bits
 */
public record Decoding(NumberType type, WordOrder order) {

    public Decoding {
        requireNonNull(type, "type");
        requireNonNull(order, "order");
    }

    /** The decoding of a register, or of a bit, which comes as 0 or 1. */
    static Decoding of(Register register) {
        NumberType type = register.table().isBits() ? NumberType.UINT16 : register.type();
        return new Decoding(type, register.order());
    }

    /**
     * Decodes one number.
     *
     * @param words registers as sent, each 0 to 65535
     * @param at index of the number's first register
     * @return the number; NaN or infinite where a float32 says so
     */
    public double number(int[] words, int at) {
        return switch (type) {
            case INT16 -> (short) words[at];
            case UINT16 -> words[at] & 0xffff;
            case INT32 -> bits(words[at], words[at + 1]);
            case UINT32 -> bits(words[at], words[at + 1]) & 0xffff_ffffL;
            case FLOAT32 -> Float.intBitsToFloat(bits(words[at], words[at + 1]));
        };
    }

    private int bits(int first, int second) {
        return switch (order) {
            case ABCD -> first << 16 | second & 0xffff;
            case CDAB -> second << 16 | first & 0xffff;
            case BADC -> swapped(first) << 16 | swapped(second);
            case DCBA -> swapped(second) << 16 | swapped(first);
        };
    }

    private static int swapped(int word) {
        return (word & 0xff) << 8 | word >>> 8 & 0xff;
    }
}
