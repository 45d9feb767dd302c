package leat.wire;

import java.util.Arrays;

/** Bytes that grow at their end. Thread-confined. */
final class Out {

    private byte[] bytes;
    private int length;

    Out(int expected) {
        bytes = new byte[expected];
    }

    int length() {
        return length;
    }

    void tag(Tag tag) {
        reserve(1);
        bytes[length++] = (byte) tag.ordinal();
    }

    /** A number that is not negative: seven bits to a byte, the lowest first. */
    void count(long value) {
        reserve(10);
        long left = value;
        while ((left & ~0x7fL) != 0) {
            bytes[length++] = (byte) (left | 0x80);
            left >>>= 7;
        }
        bytes[length++] = (byte) left;
    }

    /** Any number; near 0 it takes few bytes. */
    void whole(long value) {
        count(value << 1 ^ value >> 63);
    }

    void bits(long value) {
        reserve(8);
        for (int shift = 56; shift >= 0; shift -= 8) {
            bytes[length++] = (byte) (value >>> shift);
        }
    }

    /** Leaves so many bytes to be filled in later. */
    void leave(int size) {
        reserve(size);
        length += size;
    }

    void text(String text) {
        boolean wide = isWide(text);
        count(2L * text.length() + (wide ? 1 : 0));
        reserve(wide ? 2 * text.length() : text.length());
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (wide) {
                bytes[length++] = (byte) (c >>> 8);
            }
            bytes[length++] = (byte) c;
        }
    }

    private static boolean isWide(String text) {
        for (int i = 0; i < text.length(); i++) {
            if (text.charAt(i) > 0xff) {
                return true;
            }
        }
        return false;
    }

    void all(Out other) {
        reserve(other.length);
        System.arraycopy(other.bytes, 0, bytes, length, other.length);
        length += other.length;
    }

    /** Puts the length of all that was written since {@code begin} before it. */
    void close(int begin) {
        int end = length;
        count(end - begin);
        int head = length - end;
        System.arraycopy(bytes, begin, bytes, begin + head, end - begin);
        length = begin;
        count(end - begin);
        length = end + head;
    }

    byte[] toBytes() {
        return Arrays.copyOf(bytes, length);
    }

    private void reserve(int more) {
        if (length + more > bytes.length) {
            bytes = Arrays.copyOf(bytes, Math.max(bytes.length * 2, length + more));
        }
    }
}
