package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * One key of {@code site.yaml} as its reference tells it. Immutable.
 *
 * @param name its key under the keys of its group, such as {@code warning} or {@code loop[].raw}
 * @param kind its unit, its words, or what kind of value it is
 * @param fallback its default as it would be written
 * @param required whether it must be there
 * @param oneOf the keys of which exactly one must be there, this one among them; else empty
 * @param min smallest value as it would be written; empty where there is none
 * @param max largest value as it would be written; empty where there is none
 * @param meaning what it is
 * @param origin where the default comes from; empty without a default
 */
public record Setting(
        String name,
        String kind,
        Optional<String> fallback,
        boolean required,
        List<String> oneOf,
        String min,
        String max,
        String meaning,
        String origin) {

    public Setting {
        requireNonNull(name, "name");
        requireNonNull(kind, "kind");
        requireNonNull(fallback, "fallback");
        oneOf = List.copyOf(oneOf);
        requireNonNull(min, "min");
        requireNonNull(max, "max");
        requireNonNull(meaning, "meaning");
        requireNonNull(origin, "origin");
    }

    /** What may be written: range and unit, such as {@code 1 s to 1 min (ms, s, min, h, d)}. */
    public String allowed() {
        return min.isEmpty() ? kind : min + " to " + max + " (" + kind + ")";
    }

    /** What holds where it is left out without a default: whether it may be left out. */
    public String absent() {
        if (!oneOf.isEmpty()) {
            return "one of " + String.join(", ", oneOf);
        }
        return required ? "required" : "none";
    }
}
