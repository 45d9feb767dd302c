package leat.wire;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/** The walk that takes a state up. Thread-confined. */
final class Taken implements State {

    private final In in;
    private final String[] names;
    private final List<String> path = new ArrayList<>();
    private Fields fields;
    private int passedOver;

    /** Of bytes that {@link Written#whole} made, from where they begin. */
    Taken(In in) {
        this.in = in;
        names = new String[In.most(in.count(), in.left())];
        for (int i = 0; i < names.length; i++) {
            names[i] = in.text();
        }
        fields = new Fields(in, in.position() + in.left(), names.length);
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
    public boolean keep(String name, boolean now) {
        return finds(name) ? leave(bool()) : now;
    }

    @Override
    public int keep(String name, int now) {
        return finds(name) ? leave(integer()) : now;
    }

    @Override
    public long keep(String name, long now) {
        return finds(name) ? leave(whole()) : now;
    }

    @Override
    public double keep(String name, double now) {
        return finds(name) ? leave(real()) : now;
    }

    @Override
    public String keep(String name, String now) {
        return finds(name) ? leave(text()) : now;
    }

    @Override
    public <E extends Enum<E>> E keep(String name, E now) {
        return keep(name, now.getDeclaringClass(), now);
    }

    @Override
    public long[] keep(String name, long[] now) {
        if (!finds(name)) {
            return now;
        }
        int end = block(Tag.WHOLES);
        long[] values = new long[in.countsUntil(end)];
        long last = 0;
        long step = 0;
        for (int i = 0; i < values.length; i++) {
            values[i] = in.whole() + last + step;
            step = last == 0 ? 0 : values[i] - last;
            last = values[i];
        }
        if (isBefore(end)) {
            throw damaged("a number without an end");
        }
        return leave(values);
    }

    @Override
    public double[] keep(String name, double[] now) {
        if (!finds(name)) {
            return now;
        }
        int end = block(Tag.REALS);
        int size = end - in.position();
        if (size % Double.BYTES != 0) {
            throw damaged(size + " bytes of doubles");
        }
        double[] values = new double[size / Double.BYTES];
        for (int i = 0; i < values.length; i++) {
            values[i] = Double.longBitsToDouble(in.bits());
        }
        return leave(values);
    }

    @Override
    public <T> T keep(String name, Class<T> type, T now) {
        return keep(name, Forms.of(type), now);
    }

    @Override
    public <T> Optional<T> keep(String name, Class<T> type, Optional<T> now) {
        return keep(name, Forms.optional(Forms.of(type)), now);
    }

    @Override
    public <T> List<T> keep(String name, Class<T> type, List<T> now) {
        return keep(name, Forms.list(Forms.of(type)), now);
    }

    @Override
    public <V> Map<String, V> keep(String name, Class<V> type, Map<String, V> now) {
        return keep(name, Forms.map(String.class, Forms.of(type)), now);
    }

    @Override
    public <K extends Enum<K>, V> Map<K, V> keep(
            String name, Class<K> keys, Class<V> type, Map<K, V> now) {
        return keep(name, Forms.map(keys, Forms.of(type)), now);
    }

    /** A form gives values of its own type only. */
    @SuppressWarnings("unchecked")
    private <T> T keep(String name, Form form, T now) {
        return finds(name) ? leave((T) form.read(this)) : now;
    }

    @Override
    public void part(String name, Consumer<State> part) {
        if (finds(name)) {
            Fields outer = open(block(Tag.FIELDS));
            part.accept(this);
            close(outer);
            leave(name);
        }
    }

    /** Goes to a field, if there is one; {@link #leave} says that it has been read. */
    boolean finds(String name) {
        int position = fields.find(name, names);
        if (position < 0) {
            return false;
        }
        in.go(position);
        path.add(name);
        return true;
    }

    <T> T leave(T value) {
        path.remove(path.size() - 1);
        return value;
    }

    /** From here to {@code end} stand fields; {@link #close} ends them. */
    Fields open(int end) {
        Fields outer = fields;
        fields = new Fields(in, end, names.length);
        return outer;
    }

    void close(Fields outer) {
        passedOver += fields.left();
        fields = outer;
    }

    boolean bool() {
        Tag tag = in.tag();
        if (tag != Tag.TRUE && tag != Tag.FALSE) {
            throw isNot("yes or no", tag);
        }
        return tag == Tag.TRUE;
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
        return in.whole();
    }

    double real() {
        Tag tag = in.tag();
        return switch (tag) {
            case REAL -> Double.longBitsToDouble(in.bits());
            case WHOLE_REAL -> in.whole();
            default -> throw isNot("a " + Tag.REAL, tag);
        };
    }

    String text() {
        expect(Tag.TEXT);
        return in.text();
    }

    String name() {
        expect(Tag.NAME);
        return label();
    }

    /** The name of a record of a sealed interface. */
    String label() {
        return names[In.most(in.count(), names.length - 1)];
    }

    /** Passes over the mark of an optional without a value, if that is what stands here. */
    boolean isNone() {
        int here = in.position();
        if (in.tag() == Tag.NONE) {
            return true;
        }
        in.go(here);
        return false;
    }

    /** Where the block ends that begins here. */
    int block(Tag tag) {
        expect(tag);
        return in.block();
    }

    boolean isBefore(int end) {
        if (in.position() > end) {
            throw damaged("a value goes beyond byte " + end);
        }
        return in.position() < end;
    }

    void go(int to) {
        in.go(to);
    }

    private void expect(Tag tag) {
        Tag found = in.tag();
        if (found != tag) {
            throw isNot("a " + tag, found);
        }
    }

    private IllegalArgumentException isNot(String wanted, Tag found) {
        return damaged("a " + found + " stands where " + wanted + " should");
    }

    IllegalArgumentException damaged(String what) {
        return new IllegalArgumentException(
                "state is damaged at " + String.join(".", path) + ": " + what);
    }
}
