package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A loop current with its unit, or the bare number that a device delivers.
 *
 * @param current how a current is written
 * @param raw how a bare number is written
 */
record ScaleInputForm(QuantityForm current, NumberForm raw) implements Form<ScaleInput> {

    ScaleInputForm {
        requireNonNull(current, "current");
        requireNonNull(raw, "raw");
    }

    @Override
    public Optional<ScaleInput> read(Cursor at) {
        Optional<String> text = at.text("a loop current such as 4 mA, or a bare number");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        boolean isBare = Amount.parse(text.get()).filter(a -> a.unit().isEmpty()).isPresent();
        return isBare
                ? raw.read(at).map(v -> new ScaleInput(v, false))
                : current.read(at).map(v -> new ScaleInput(v, true));
    }

    @Override
    public String print(ScaleInput value) {
        return value.isCurrent() ? current.print(value.value()) : raw.print(value.value());
    }

    @Override
    public String unit() {
        return current.unit() + ", or a bare number";
    }

    @Override
    public String min() {
        return current.min();
    }

    @Override
    public String max() {
        return current.max();
    }

    @Override
    public Map<String, Object> schema() {
        return Map.of("anyOf", List.of(current.schema(), raw.schema()));
    }
}
