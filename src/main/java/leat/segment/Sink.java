package leat.segment;

import java.util.Arrays;

/** Bytes that grow. Numbers are written in groups of seven bits, the lowest first. */
final class Sink {

    private static final int LAST_GROUP = 0x7f;

    private byte[] bytes = new byte[256];
    private int size;

    void octet(int value) {
        if (size == bytes.length) {
            bytes = Arrays.copyOf(bytes, 2 * size);
        }
        bytes[size++] = (byte) value;
    }

    /** Any 64 bits, taken as a number without sign. */
    void number(long value) {
        long rest = value;
        while ((rest & ~LAST_GROUP) != 0) {
            octet((int) rest & LAST_GROUP | 0x80);
            rest >>>= 7;
        }
        octet((int) rest);
    }

    /** Small of either sign in few bytes: 0, -1, 1, -2 ... as 0, 1, 2, 3 ... */
    void signed(long value) {
        number(value << 1 ^ value >> 63);
    }

    /** Its chars, UTF-16, one number each: any text comes back, also what is no valid Unicode. */
    void text(String text) {
        number(text.length());
        for (int i = 0; i < text.length(); i++) {
            number(text.charAt(i));
        }
    }

    /** Four bytes, the highest first. */
    void fixed(int value) {
        for (int shift = 24; shift >= 0; shift -= 8) {
            octet(value >>> shift);
        }
    }

    void bytes(byte[] more, int length) {
        if (size + length > bytes.length) {
            bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, size + length));
        }
        System.arraycopy(more, 0, bytes, size, length);
        size += length;
    }

    int size() {
        return size;
    }

    /** What was written, and behind it what was not; not a copy. */
    byte[] array() {
        return bytes;
    }

    byte[] copy() {
        return Arrays.copyOf(bytes, size);
    }
}
