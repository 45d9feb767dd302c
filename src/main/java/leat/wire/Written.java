package leat.wire;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/** The walk that writes a state down. Thread-confined. */
final class Written implements State {

    private final Out out = new Out(1 << 14);
    private final Map<String, Integer> numbers = new HashMap<>();
    private final List<String> names = new ArrayList<>();
    private int[] ofPart = new int[16];
    private int fields;

    @Override
    public boolean isTakenUp() {
        return false;
    }

    @Override
    public boolean keep(String name, boolean now) {
        field(name);
        bool(now);
        return now;
    }

    @Override
    public int keep(String name, int now) {
        field(name);
        whole(now);
        return now;
    }

    @Override
    public long keep(String name, long now) {
        field(name);
        whole(now);
        return now;
    }

    @Override
    public double keep(String name, double now) {
        field(name);
        real(now);
        return now;
    }

    @Override
    public String keep(String name, String now) {
        field(name);
        text(now);
        return now;
    }

    @Override
    public <E extends Enum<E>> E keep(String name, E now) {
        field(name);
        name(now.name());
        return now;
    }

    @Override
    public long[] keep(String name, long[] now) {
        field(name);
        int begin = open(Tag.WHOLES);
        long last = 0;
        long step = 0;
        for (long value : now) {
            out.whole(value - last - step);
            step = last == 0 ? 0 : value - last;
            last = value;
        }
        out.close(begin);
        return now;
    }

    @Override
    public double[] keep(String name, double[] now) {
        field(name);
        int begin = open(Tag.REALS);
        for (double value : now) {
            out.bits(Double.doubleToRawLongBits(value));
        }
        out.close(begin);
        return now;
    }

    @Override
    public <T> T keep(String name, Class<T> type, T now) {
        field(name);
        Forms.of(type).write(this, now);
        return now;
    }

    @Override
    public <T> Optional<T> keep(String name, Class<T> type, Optional<T> now) {
        field(name);
        Forms.optional(Forms.of(type)).write(this, now);
        return now;
    }

    @Override
    public <T> List<T> keep(String name, Class<T> type, List<T> now) {
        field(name);
        Forms.list(Forms.of(type)).write(this, now);
        return now;
    }

    @Override
    public <V> Map<String, V> keep(String name, Class<V> type, Map<String, V> now) {
        field(name);
        Forms.map(String.class, Forms.of(type)).write(this, now);
        return now;
    }

    @Override
    public <K extends Enum<K>, V> Map<K, V> keep(
            String name, Class<K> keys, Class<V> type, Map<K, V> now) {
        field(name);
        Forms.map(keys, Forms.of(type)).write(this, now);
        return now;
    }

    @Override
    public void part(String name, Consumer<State> part) {
        field(name);
        int[] outer = ofPart;
        int outerFields = fields;
        ofPart = new int[16];
        fields = 0;
        int begin = open(Tag.FIELDS);
        part.accept(this);
        out.close(begin);
        ofPart = outer;
        fields = outerFields;
    }

    private void field(String name) {
        int number = number(name);
        for (int i = 0; i < fields; i++) {
            if (ofPart[i] == number) {
                throw new IllegalStateException("two fields of one part are called " + name);
            }
        }
        if (fields == ofPart.length) {
            ofPart = Arrays.copyOf(ofPart, 2 * fields);
        }
        ofPart[fields++] = number;
        out.count(number);
    }

    private int number(String name) {
        Integer known = numbers.get(name);
        if (known != null) {
            return known;
        }
        numbers.put(name, names.size());
        names.add(name);
        return names.size() - 1;
    }

    void bool(boolean value) {
        out.tag(value ? Tag.TRUE : Tag.FALSE);
    }

    void none() {
        out.tag(Tag.NONE);
    }

    void whole(long value) {
        out.tag(Tag.WHOLE);
        out.whole(value);
    }

    void real(double value) {
        long bits = Double.doubleToRawLongBits(value);
        long whole = (long) value;
        if (Math.abs(whole) < 1L << 48 && Double.doubleToRawLongBits(whole) == bits) {
            out.tag(Tag.WHOLE_REAL);
            out.whole(whole);
        } else {
            out.tag(Tag.REAL);
            out.bits(bits);
        }
    }

    void text(String value) {
        out.tag(Tag.TEXT);
        out.text(value);
    }

    void name(String value) {
        out.tag(Tag.NAME);
        out.count(number(value));
    }

    /** Begins a block; {@link #close} ends it. */
    int open(Tag tag) {
        out.tag(tag);
        return out.length();
    }

    void close(int begin) {
        out.close(begin);
    }

    /** The name of a record of a sealed interface, or of one of its components. */
    void label(String name) {
        out.count(number(name));
    }

    /** Room for a head, the format, the names and all that was written. */
    Out all(int format, int head) {
        Out all = new Out(head + out.length() + 24 * names.size() + 16);
        all.leave(head);
        all.count(format);
        all.count(names.size());
        names.forEach(all::text);
        all.all(out);
        return all;
    }
}
