package leat.wire;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

/**
 * The walk that takes a state up. Nothing in the bytes is believed: what ends too early or is of an
 * impossible length throws {@link IllegalArgumentException}, and no room is made for what the bytes
 * do not hold. Thread-confined.
 */
final class Taken extends State {

    private final byte[] bytes;
    private int position;
    private final String[] names;
    private final List<String> path = new ArrayList<>();
    private String last = "its head";
    private Fields fields;
    private int passedOver;

    /**
     * @param bytes that {@link Written#toBytes} made; they must not change while they are read
     * @param head so many are left out
     * @param format the only one to be taken up
     */
    Taken(byte[] bytes, int head, int format) {
        this.bytes = bytes;
        position = head;
        long written = count();
        if (written != format) {
            throw new IllegalArgumentException(
                    "state has format " + written + ", this leat reads " + format);
        }
        names = new String[size(bytes.length - position)];
        for (int i = 0; i < names.length; i++) {
            names[i] = chars();
        }
        fields = new Fields(this, bytes.length);
    }

    /** How many stored fields nobody asked for. */
    int passedOver() {
        return passedOver + fields.left();
    }

    @Override
    public boolean isTakenUp() {
        return true;
    }

    @Override
    <T> T keep(String name, Form<T> form, T now) {
        return finds(name) ? form.read(this) : now;
    }

    @Override
    public void part(String name, Consumer<State> part) {
        if (finds(name)) {
            fields(block(Tag.FIELDS), () -> part.accept(this));
        }
    }

    /** Goes to the value of a field, if there is one. */
    boolean finds(String name) {
        int found = fields.find(name, names);
        position = found < 0 ? position : found;
        last = name;
        return found >= 0;
    }

    /** From here to {@code end} stand the fields of a part. */
    void fields(int end, Runnable part) {
        Fields outer = fields;
        fields = new Fields(this, end);
        path.add(last);
        part.run();
        last = path.remove(path.size() - 1);
        passedOver += fields.left();
        fields = outer;
        position = end;
    }

    /** The number of a name in the table. */
    int nameNumber() {
        return size(names.length - 1);
    }

    /** The name of a record. */
    String label() {
        return names[nameNumber()];
    }

    String name() {
        expect(Tag.NAME);
        return label();
    }

    boolean bool() {
        Tag tag = tag();
        if (tag != Tag.TRUE && tag != Tag.FALSE) {
            throw isNot(Tag.TRUE, tag);
        }
        return tag == Tag.TRUE;
    }

    /** Passes over the mark of an optional without a value, if that is what stands here. */
    boolean isNone() {
        boolean none = tag() == Tag.NONE;
        position -= none ? 0 : 1;
        return none;
    }

    int integer() {
        long value = whole();
        if (value != (int) value) {
            throw damaged(value + " is no 32-bit number");
        }
        return (int) value;
    }

    long whole() {
        expect(Tag.WHOLE);
        return zigzag();
    }

    double real() {
        Tag tag = tag();
        return switch (tag) {
            case REAL -> Double.longBitsToDouble(bits());
            case WHOLE_REAL -> zigzag();
            default -> throw isNot(Tag.REAL, tag);
        };
    }

    String text() {
        expect(Tag.TEXT);
        return chars();
    }

    long[] wholes() {
        int end = block(Tag.WHOLES);
        long[] values = new long[end - position];
        int count = 0;
        long before = 0;
        long step = 0;
        while (isBefore(end)) {
            long value = zigzag() + before + step;
            step = before == 0 ? 0 : value - before;
            before = value;
            values[count++] = value;
        }
        return Arrays.copyOf(values, count);
    }

    double[] reals() {
        int end = block(Tag.REALS);
        double[] values = new double[(end - position + 7) / 8];
        int count = 0;
        while (isBefore(end)) {
            values[count++] = Double.longBitsToDouble(bits());
        }
        return values;
    }

    /** Where the block ends that begins here. */
    int block(Tag tag) {
        expect(tag);
        return end();
    }

    /** Reads one item after the other until the block that begins here is over. */
    void block(Tag tag, Runnable item) {
        int end = block(tag);
        while (isBefore(end)) {
            item.run();
        }
    }

    private int end() {
        int size = size(bytes.length - position);
        return position + size;
    }

    boolean isBefore(int end) {
        if (position > end) {
            throw damaged("a value goes beyond byte " + end);
        }
        return position < end;
    }

    int position() {
        return position;
    }

    /** Passes over a value of any kind. */
    void skip() {
        switch (tag()) {
            case FALSE, TRUE, NONE -> {
                // nothing follows
            }
            case WHOLE, WHOLE_REAL, NAME -> count();
            case REAL -> bits();
            case TEXT -> chars();
            case FIELDS, KIND, LIST, MAP, WHOLES, REALS -> position = end();
        }
    }

    private void expect(Tag tag) {
        Tag found = tag();
        if (found != tag) {
            throw isNot(tag, found);
        }
    }

    private IllegalArgumentException isNot(Tag wanted, Tag found) {
        return damaged("a " + found + " stands where a " + wanted + " should");
    }

    IllegalArgumentException damaged(String what) {
        path.add(last);
        return new IllegalArgumentException(
                "state is damaged at " + String.join(".", path) + ": " + what);
    }

    private Tag tag() {
        require(1);
        return Tag.of(bytes[position++]);
    }

    private long count() {
        if (position < bytes.length && bytes[position] >= 0) {
            return bytes[position++]; // most are small
        }
        long value = 0;
        for (int shift = 0; shift < 64; shift += 7) {
            require(1);
            byte next = bytes[position++];
            value |= (next & 0x7fL) << shift;
            if (next >= 0) {
                return value;
            }
        }
        throw damaged("a number without an end");
    }

    private long zigzag() {
        long value = count();
        return value >>> 1 ^ -(value & 1);
    }

    /** A number that cannot be more than {@code most}. */
    private int size(int most) {
        return size(count(), most);
    }

    private int size(long value, int most) {
        if (value < 0 || value > most) {
            throw damaged("a size of " + value);
        }
        return (int) value;
    }

    private long bits() {
        require(8);
        byte[] b = bytes;
        int i = position;
        position += 8;
        return (b[i] & 0xffL) << 56
                | (b[i + 1] & 0xffL) << 48
                | (b[i + 2] & 0xffL) << 40
                | (b[i + 3] & 0xffL) << 32
                | (b[i + 4] & 0xffL) << 24
                | (b[i + 5] & 0xffL) << 16
                | (b[i + 6] & 0xffL) << 8
                | b[i + 7] & 0xffL;
    }

    private String chars() {
        long size = count();
        boolean wide = (size & 1) != 0;
        int left = bytes.length - position;
        char[] chars = new char[size(size >>> 1, wide ? left / 2 : left)];
        for (int i = 0; i < chars.length; i++) {
            int high = wide ? bytes[position++] << 8 : 0;
            chars[i] = (char) (high | bytes[position++] & 0xff);
        }
        return new String(chars);
    }

    private void require(int more) {
        if (bytes.length - position < more) {
            throw damaged("it ends at byte " + bytes.length);
        }
    }
}
