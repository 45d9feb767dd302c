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
 *     starts = state.keep("starts", Start.class, starts);
 * }
 * }</pre>
 *
 * <p>Fields are found by name, so their order is free. A stored state that lacks a field leaves it
 * as it is in a fresh object: a new field does not void what older versions stored. A stored field
 * that nobody asks for is passed over, and counted by the host. A value of another type than the
 * field's, or an enum constant or record that no longer exists, throws {@link
 * IllegalArgumentException} with the path of the field.
 *
 * <p>Values are exact: every bit of a double, NaN and negative zero included, and every char of a
 * text. Records are kept by their components, which may be primitives, texts, enums, optionals,
 * lists, maps with texts or enums as keys, and records again; of a sealed interface, the record by
 * its simple name. Collections are handed back immutable.
 *
 * <p>Thread-confined.
 */
public interface State {

    boolean keep(String name, boolean now);

    int keep(String name, int now);

    long keep(String name, long now);

    double keep(String name, double now);

    String keep(String name, String now);

    <E extends Enum<E>> E keep(String name, E now);

    long[] keep(String name, long[] now);

    double[] keep(String name, double[] now);

    /** A record, or one of the records of a sealed interface. */
    <T> T keep(String name, Class<T> type, T now);

    <T> Optional<T> keep(String name, Class<T> type, Optional<T> now);

    <T> List<T> keep(String name, Class<T> type, List<T> now);

    /** In the order of the map, which the result keeps. */
    <V> Map<String, V> keep(String name, Class<V> type, Map<String, V> now);

    /** What belongs to a part of the object; its names are its own. */
    void part(String name, Consumer<State> fields);
}
