package leat.wire;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * One walk over the fields of something that has a state. The same walk writes the state down and
 * takes it up again: each call is handed what the field holds now, and gives back what it is to
 * hold from now on.
 *
 * <pre>{@code
 * void keep(State state) {
 *     tickMicros = state.keep("tick", tickMicros);
 *     state.part("gauges", gauges::keep);
 *     starts = new ArrayList<>(state.keep("starts", Start.class, starts));
 * }
 * }</pre>
 *
 * <p>Fields are found by name, so their order is free; within a part each name stands once. A
 * stored state that lacks a field leaves it as it is in a fresh object: a new field does not void
 * what older versions stored. A stored field that nobody asks for is passed over, and counted for
 * the host. A value of another type than the field's, or an enum constant or record that no longer
 * exists, throws {@link IllegalArgumentException} with the path of the field.
 *
 * <p>Values are exact: every bit of a double, NaN and negative zero included, and every char of a
 * text. Records are kept by their components, which may be booleans, numbers (int, long, double),
 * texts, enums, optionals (also of int, long, double), lists, sets of enums, maps with texts or
 * enums as keys, and records again; of a sealed interface, the record by its simple name. No record
 * may hold itself. Collections are handed back immutable; sets and maps of enums are in the order
 * of their constants.
 *
 * <p>A record that lacks a component gets what is naturally empty: 0, false, an empty text,
 * optional, list, set or map. For an enum or a record nothing is, and it is refused by name: a
 * component of these types that is added later is declared optional. So the names of enum
 * constants, of record components and of the records of a sealed interface belong to the stored
 * form; those of classes and fields do not.
 *
 * <p>Thread-confined.
 */
public abstract sealed class State permits Written, Taken {

    State() {}

    /**
     * True while a state is taken up: for a class that must build something out of what it took. No
     * field may depend on it.
     */
    public abstract boolean isTakenUp();

    /**
     * What belongs to a part of the object; its names are its own. A part that the stored state
     * lacks is not walked.
     */
    public abstract void part(String name, Consumer<State> fields);

    abstract <T> T keep(String name, Form<T> form, T now);

    public final boolean keep(String name, boolean now) {
        return keep(name, Forms.BOOL, now);
    }

    public final int keep(String name, int now) {
        return keep(name, Forms.INTEGER, now);
    }

    public final long keep(String name, long now) {
        return keep(name, Forms.WHOLE, now);
    }

    public final double keep(String name, double now) {
        return keep(name, Forms.REAL, now);
    }

    public final String keep(String name, String now) {
        return keep(name, Forms.TEXT, now);
    }

    public final <E extends Enum<E>> E keep(String name, E now) {
        return keep(name, Forms.of(now.getDeclaringClass()), now);
    }

    /** Best for times: what grows evenly takes one byte each. */
    public final long[] keep(String name, long[] now) {
        return keep(name, Forms.WHOLES, now);
    }

    public final double[] keep(String name, double[] now) {
        return keep(name, Forms.REALS, now);
    }

    /** A record, or one of the records of a sealed interface. */
    public final <T> T keep(String name, Class<T> type, T now) {
        return keep(name, Forms.of(type), now);
    }

    public final <T> Optional<T> keep(String name, Class<T> type, Optional<T> now) {
        return keep(name, Forms.optional(Forms.of(type)), now);
    }

    public final <T> List<T> keep(String name, Class<T> type, List<T> now) {
        return keep(name, Forms.list(Forms.of(type)), now);
    }

    /** In the order of the map, which the result keeps. */
    public final <V> Map<String, V> keep(String name, Class<V> type, Map<String, V> now) {
        return keep(name, Forms.map(String.class, Forms.of(type)), now);
    }

    /** In the order of the constants. */
    public final <K extends Enum<K>, V> Map<K, V> keep(
            String name, Class<K> keys, Class<V> type, Map<K, V> now) {
        return keep(name, Forms.map(keys, Forms.of(type)), now);
    }
}
