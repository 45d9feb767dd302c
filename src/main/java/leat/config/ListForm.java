package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A list of values of one kind, at least one.
 *
 * @param <T> what each is inside leat
 * @param item how each is written
 * @param noun what several of them are called
 * @param atMost longest list
 */
record ListForm<T>(Form<T> item, String noun, int atMost) implements Form<List<T>> {

    ListForm {
        requireNonNull(item, "item");
        requireNonNull(noun, "noun");
    }

    @Override
    public Optional<List<T>> read(Cursor at) {
        String allowed = "a list of " + noun + ", 1 to " + atMost + ", such as [ a, b ]";
        Optional<List<Cursor>> items = at.items(allowed);
        if (items.isEmpty()) {
            return Optional.empty();
        }
        if (items.get().isEmpty() || items.get().size() > atMost) {
            at.wrong("a list of " + items.get().size() + " stands here", allowed);
            return Optional.empty();
        }
        List<T> values = new ArrayList<>();
        for (Cursor each : items.get()) {
            item.read(each).ifPresent(values::add);
        }
        return values.size() == items.get().size()
                ? Optional.of(List.copyOf(values))
                : Optional.empty();
    }

    @Override
    public String print(List<T> value) {
        return "[ " + String.join(", ", value.stream().map(item::print).toList()) + " ]";
    }

    @Override
    public String unit() {
        return "list of " + noun;
    }

    @Override
    public Map<String, Object> schema() {
        Map<String, Object> schema = new LinkedHashMap<>();
        schema.put("type", "array");
        schema.put("items", item.schema());
        schema.put("minItems", 1);
        schema.put("maxItems", atMost);
        return schema;
    }
}
