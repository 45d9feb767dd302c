package leat.wire;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;

/** The walk that writes a state down. Thread-confined. */
final class Written extends State {

    private byte[] bytes = new byte[1 << 14];
    private int length;

    /** In the order of their first use, which is their number. */
    private final Map<String, Integer> names = new LinkedHashMap<>();

    /** The names in the parts that are being written, the innermost last. */
    private int[] open = new int[64];

    private int innermost;
    private int end;

    @Override
    public boolean isTakenUp() {
        return false;
    }

    @Override
    <T> T keep(String name, Form<T> form, T now) {
        field(name);
        form.write(this, now);
        return now;
    }

    @Override
    public void part(String name, Consumer<State> part) {
        field(name);
        int outer = innermost;
        innermost = end;
        block(Tag.FIELDS, () -> part.accept(this));
        end = innermost;
        innermost = outer;
    }

    private void field(String name) {
        int number = number(name);
        for (int i = innermost; i < end; i++) {
            if (open[i] == number) {
                throw new IllegalStateException("two fields of one part are called " + name);
            }
        }
        if (end == open.length) {
            open = Arrays.copyOf(open, 2 * end);
        }
        open[end++] = number;
        count(number);
    }

    private int number(String name) {
        Integer known = names.get(name);
        if (known == null) {
            known = names.size();
            names.put(name, known);
        }
        return known;
    }

    /** The name of a record, or of one of its components. */
    void label(String name) {
        count(number(name));
    }

    void name(String value) {
        tag(Tag.NAME);
        label(value);
    }

    void bool(boolean value) {
        tag(value ? Tag.TRUE : Tag.FALSE);
    }

    void none() {
        tag(Tag.NONE);
    }

    void whole(long value) {
        tag(Tag.WHOLE);
        zigzag(value);
    }

    void real(double value) {
        long bits = Double.doubleToRawLongBits(value);
        long whole = (long) value;
        if (Math.abs(whole) < 1L << 48 && Double.doubleToRawLongBits(whole) == bits) {
            tag(Tag.WHOLE_REAL);
            zigzag(whole);
        } else {
            tag(Tag.REAL);
            bits(bits);
        }
    }

    void text(String value) {
        tag(Tag.TEXT);
        chars(value);
    }

    void wholes(long[] values) {
        block(Tag.WHOLES, () -> writeAll(values));
    }

    private void writeAll(long[] values) {
        long last = 0;
        long step = 0;
        for (long value : values) {
            zigzag(value - last - step);
            step = last == 0 ? 0 : value - last;
            last = value;
        }
    }

    void reals(double[] values) {
        block(Tag.REALS, () -> writeAll(values));
    }

    private void writeAll(double[] values) {
        for (double value : values) {
            bits(Double.doubleToRawLongBits(value));
        }
    }

    /** A tag, the length of the content, and the content. */
    void block(Tag tag, Runnable content) {
        tag(tag);
        int begin = length;
        content.run();
        int size = length - begin;
        count(size);
        int head = length - begin - size;
        System.arraycopy(bytes, begin, bytes, begin + head, size);
        length = begin;
        count(size);
        length = begin + head + size;
    }

    /** The format and the names, after a head to be filled in; then all that was written. */
    byte[] toBytes(int head, int format) {
        Written first = new Written();
        first.length = head;
        first.count(format);
        first.count(names.size());
        names.keySet().forEach(first::chars);
        byte[] all = Arrays.copyOf(first.bytes, first.length + length);
        System.arraycopy(bytes, 0, all, first.length, length);
        return all;
    }

    private void tag(Tag tag) {
        reserve(1);
        bytes[length++] = (byte) tag.ordinal();
    }

    /** Seven bits to a byte, the lowest first. */
    private void count(long value) {
        reserve(10);
        long left = value;
        while ((left & ~0x7fL) != 0) {
            bytes[length++] = (byte) (left | 0x80);
            left >>>= 7;
        }
        bytes[length++] = (byte) left;
    }

    /** Near 0 it takes few bytes. */
    private void zigzag(long value) {
        count(value << 1 ^ value >> 63);
    }

    private void bits(long value) {
        reserve(8);
        byte[] b = bytes;
        int i = length;
        b[i] = (byte) (value >>> 56);
        b[i + 1] = (byte) (value >>> 48);
        b[i + 2] = (byte) (value >>> 40);
        b[i + 3] = (byte) (value >>> 32);
        b[i + 4] = (byte) (value >>> 24);
        b[i + 5] = (byte) (value >>> 16);
        b[i + 6] = (byte) (value >>> 8);
        b[i + 7] = (byte) value;
        length = i + 8;
    }

    private void chars(String text) {
        boolean wide = isWide(text);
        count(2L * text.length() + (wide ? 1 : 0));
        reserve(2 * text.length());
        for (int i = 0; i < text.length(); i++) {
            if (wide) {
                bytes[length++] = (byte) (text.charAt(i) >>> 8);
            }
            bytes[length++] = (byte) text.charAt(i);
        }
    }

    private static boolean isWide(String text) {
        int all = 0;
        for (int i = 0; i < text.length(); i++) {
            all |= text.charAt(i);
        }
        return all > 0xff;
    }

    private void reserve(int more) {
        if (length + more > bytes.length) {
            bytes = Arrays.copyOf(bytes, Math.max(bytes.length * 2, length + more));
        }
    }
}
