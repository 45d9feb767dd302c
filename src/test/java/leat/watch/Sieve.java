package leat.watch;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Predicate;
import leat.wire.State;
import leat.wire.StateBytes;

/**
 * Walks a state as another version would that lacks some of its fields: those are handed to nobody.
 * Notes what it saw by path, such as {@code rules.learner.baseline}.
 */
final class Sieve implements State {

    private final State inner;
    private final String path;
    private final Predicate<String> lets;
    private final Map<String, Object> seen;

    Sieve(State inner, Predicate<String> lets, Map<String, Object> seen) {
        this(inner, "", lets, seen);
    }

    private Sieve(State inner, String path, Predicate<String> lets, Map<String, Object> seen) {
        this.inner = inner;
        this.path = path;
        this.lets = lets;
        this.seen = seen;
    }

    private boolean lets(String name, Object now) {
        seen.put(path + name, now);
        return lets.test(path + name);
    }

    @Override
    public boolean isTakenUp() {
        return inner.isTakenUp();
    }

    @Override
    public boolean keep(String name, boolean now) {
        return lets(name, now) ? inner.keep(name, now) : now;
    }

    @Override
    public int keep(String name, int now) {
        return lets(name, now) ? inner.keep(name, now) : now;
    }

    @Override
    public long keep(String name, long now) {
        return lets(name, now) ? inner.keep(name, now) : now;
    }

    @Override
    public double keep(String name, double now) {
        return lets(name, now) ? inner.keep(name, now) : now;
    }

    @Override
    public String keep(String name, String now) {
        return lets(name, now) ? inner.keep(name, now) : now;
    }

    @Override
    public <E extends Enum<E>> E keep(String name, E now) {
        return lets(name, now) ? inner.keep(name, now) : now;
    }

    @Override
    public long[] keep(String name, long[] now) {
        return lets(name, now) ? inner.keep(name, now) : now;
    }

    @Override
    public double[] keep(String name, double[] now) {
        return lets(name, now) ? inner.keep(name, now) : now;
    }

    @Override
    public <T> T keep(String name, Class<T> type, T now) {
        return lets(name, now) ? inner.keep(name, type, now) : now;
    }

    @Override
    public <T> Optional<T> keep(String name, Class<T> type, Optional<T> now) {
        return lets(name, now) ? inner.keep(name, type, now) : now;
    }

    @Override
    public <T> List<T> keep(String name, Class<T> type, List<T> now) {
        return lets(name, now) ? inner.keep(name, type, now) : now;
    }

    @Override
    public <V> Map<String, V> keep(String name, Class<V> type, Map<String, V> now) {
        return lets(name, now) ? inner.keep(name, type, now) : now;
    }

    @Override
    public <K extends Enum<K>, V> Map<K, V> keep(
            String name, Class<K> keys, Class<V> type, Map<K, V> now) {
        return lets(name, now) ? inner.keep(name, keys, type, now) : now;
    }

    @Override
    public void part(String name, Consumer<State> fields) {
        if (lets(name, Map.of())) {
            inner.part(name, part -> fields.accept(new Sieve(part, path + name + ".", lets, seen)));
        }
    }

    /** Everything that a watch keeps, by path. */
    static Map<String, Object> fields(Watch watch) {
        Map<String, Object> seen = new HashMap<>();
        written(watch, path -> true, seen);
        return seen;
    }

    /** The state as a version writes it that has only some of the fields. */
    static byte[] written(Watch watch, Predicate<String> lets) {
        return written(watch, lets, new HashMap<>());
    }

    private static byte[] written(Watch watch, Predicate<String> lets, Map<String, Object> seen) {
        return StateBytes.of(Watch.FORMAT, state -> watch.keep(new Sieve(state, lets, seen)));
    }
}
