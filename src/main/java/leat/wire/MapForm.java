package leat.wire;

import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** Keys, each with its value: texts in the order of the map, constants in their own. */
record MapForm(Class<?> keys, Form key, Form value) implements Form {

    @Override
    public void write(Written to, Object map) {
        Map<Object, Object> ordered = ordered();
        ordered.putAll((Map<?, ?>) map);
        int begin = to.open(Tag.MAP);
        ordered.forEach(
                (k, v) -> {
                    key.write(to, k);
                    value.write(to, v);
                });
        to.close(begin);
    }

    @Override
    public Object read(Taken from) {
        int end = from.block(Tag.MAP);
        Map<Object, Object> map = ordered();
        while (from.isBefore(end)) {
            map.put(key.read(from), value.read(from));
        }
        return Collections.unmodifiableMap(map);
    }

    @SuppressWarnings({"unchecked", "rawtypes"})
    private Map<Object, Object> ordered() {
        return keys.isEnum() ? new EnumMap(keys) : new LinkedHashMap<>();
    }

    @Override
    public Optional<Object> empty() {
        return Optional.of(Collections.unmodifiableMap(ordered()));
    }
}
