package leat.wire;

/**
 * Reads what {@link Out} wrote. Bytes that end too early or hold an impossible length throw {@link
 * IllegalArgumentException}, and nothing is made room for that the bytes do not hold.
 * Thread-confined.
 */
final class In {

    private final byte[] bytes;
    private int position;

    /** Does not copy: the bytes must not change while they are read. */
    In(byte[] bytes) {
        this.bytes = bytes;
    }

    int position() {
        return position;
    }

    void go(int to) {
        position = to;
    }

    int left() {
        return bytes.length - position;
    }

    Tag tag() {
        require(1);
        return Tag.of(bytes[position++]);
    }

    long count() {
        long value = 0;
        for (int shift = 0; shift < 64; shift += 7) {
            require(1);
            byte next = bytes[position++];
            value |= (next & 0x7fL) << shift;
            if (next >= 0) {
                return value;
            }
        }
        throw new IllegalArgumentException("state is damaged: a number without an end");
    }

    long whole() {
        long value = count();
        return value >>> 1 ^ -(value & 1);
    }

    long bits() {
        require(8);
        long value = 0;
        for (int i = 0; i < 8; i++) {
            value = value << 8 | bytes[position++] & 0xff;
        }
        return value;
    }

    String text() {
        long size = count();
        int width = (size & 1) == 0 ? 1 : 2;
        int length = most(size >>> 1, left() / width);
        char[] chars = new char[length];
        for (int i = 0; i < length; i++) {
            int high = width == 2 ? bytes[position++] << 8 : 0;
            chars[i] = (char) (high | bytes[position++] & 0xff);
        }
        return new String(chars);
    }

    /** Where the block ends that begins here. */
    int block() {
        int size = most(count(), left());
        return position + size;
    }

    /** How many varints there are until {@code end}. */
    int countsUntil(int end) {
        int count = 0;
        for (int i = position; i < end; i++) {
            count += bytes[i] >= 0 ? 1 : 0;
        }
        return count;
    }

    /** Passes over a value of any kind. */
    void skip() {
        switch (tag()) {
            case FALSE, TRUE, NONE -> {
                // nothing follows
            }
            case WHOLE, WHOLE_REAL, NAME -> count();
            case REAL -> bits();
            case TEXT -> {
                long size = count();
                int width = (size & 1) == 0 ? 1 : 2;
                position += width * most(size >>> 1, left() / width);
            }
            case FIELDS, KIND, LIST, MAP, WHOLES, REALS -> position = block();
        }
    }

    /** The number as an index or size below or at {@code most}. */
    static int most(long value, int most) {
        if (value < 0 || value > most) {
            throw new IllegalArgumentException("state is damaged: a size of " + value);
        }
        return (int) value;
    }

    private void require(int more) {
        if (bytes.length - position < more) {
            throw new IllegalArgumentException("state is damaged: it ends at byte " + bytes.length);
        }
    }
}
