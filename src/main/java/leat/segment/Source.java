package leat.segment;

/** Reads what a {@link Sink} wrote. Thread-confined. */
final class Source {

    /** These bytes cannot have been written by a {@link Sink}. */
    static final class Amiss extends IllegalArgumentException {

        private static final long serialVersionUID = 1L;

        Amiss(String message) {
            super(message);
        }

        Amiss(String message, Throwable cause) {
            super(message, cause);
        }
    }

    private final byte[] bytes;
    private final int end;
    private int next;

    Source(byte[] bytes, int from, int end) {
        this.bytes = bytes;
        this.next = from;
        this.end = end;
    }

    boolean hasMore() {
        return next < end;
    }

    int octet() {
        if (next >= end) {
            throw new Amiss("it ends too early");
        }
        return bytes[next++] & 0xff;
    }

    long number() {
        int first = octet();
        if (first < 0x80) {
            return first;
        }
        long value = first & 0x7f;
        for (int shift = 7; shift < Long.SIZE; shift += 7) {
            int group = octet();
            value |= (long) (group & 0x7f) << shift;
            if (group < 0x80) {
                return value;
            }
        }
        throw new Amiss("it holds a number of more than 64 bits");
    }

    long signed() {
        long number = number();
        return number >>> 1 ^ -(number & 1);
    }

    /** A number of things that are each at least so many bytes or bits here. */
    int count(long most) {
        long count = number();
        if (count < 0 || count > Math.min(most, Integer.MAX_VALUE)) {
            throw new Amiss("it counts " + Long.toUnsignedString(count));
        }
        return (int) count;
    }

    String text() {
        int length = count((long) end - next);
        char[] chars = new char[length];
        for (int i = 0; i < length; i++) {
            chars[i] = (char) number();
        }
        return new String(chars);
    }

    int fixed() {
        return octet() << 24 | octet() << 16 | octet() << 8 | octet();
    }

    /** Its next bytes as a source of their own. */
    Source part(int length) {
        if (length > end - next) {
            throw new Amiss("it ends too early");
        }
        Source part = new Source(bytes, next, next + length);
        next += length;
        return part;
    }

    byte[] array() {
        return bytes;
    }

    int position() {
        return next;
    }

    int left() {
        return end - next;
    }
}
