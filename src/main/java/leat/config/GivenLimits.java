package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import leat.rule.Limit;

/**
 * Limits as the file gives them, each with the place where it stands. Immutable.
 *
 * @param byLimit those that are given; the others have their default
 */
record GivenLimits(Map<Limit, Given> byLimit) {

    static final GivenLimits NONE = new GivenLimits(Map.of());

    GivenLimits {
        byLimit = Map.copyOf(byLimit);
    }

    /** These with others put over them. */
    GivenLimits with(Map<Limit, Given> others) {
        Map<Limit, Given> merged = new EnumMap<>(Limit.class);
        merged.putAll(byLimit);
        merged.putAll(others);
        return new GivenLimits(merged);
    }

    Optional<Given> given(Limit limit) {
        return Optional.ofNullable(byLimit.get(limit));
    }

    double value(Limit limit) {
        return given(limit).map(Given::value).orElse(limit.defaultValue());
    }

    Map<Limit, Double> values() {
        Map<Limit, Double> values = new EnumMap<>(Limit.class);
        byLimit.forEach((limit, given) -> values.put(limit, given.value()));
        return values;
    }

    /**
     * One limit.
     *
     * @param value psi, seconds, psi per second, or a plain number
     * @param at where it stands
     */
    record Given(double value, Cursor at) {
        Given {
            requireNonNull(at, "at");
        }
    }
}
