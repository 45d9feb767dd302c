package leat.acquire.recording;

import static java.util.Objects.requireNonNull;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import leat.signal.Channel;
import leat.signal.PressureUnit;

/**
 * Names of columns that differ from leat's own, as a person gives them: {@code inlet=P in} or with
 * a unit {@code inlet=P in:bar}.
 *
 * @param names by {@code time} or the key of a channel
 */
public record ColumnNames(Map<String, Named> names) {

    /** The key of the column that holds the time. */
    public static final String TIME = "time";

    /** leat's own names only. */
    public static final ColumnNames OWN = new ColumnNames(Map.of());

    /**
     * A column as it stands in the header.
     *
     * @param name its name, case does not count
     * @param unit of its numbers, where the person said one
     */
    public record Named(String name, Optional<PressureUnit> unit) {
        public Named {
            requireNonNull(name, "name");
            requireNonNull(unit, "unit");
        }
    }

    public ColumnNames {
        names = Map.copyOf(names);
    }

    /**
     * Reads what a person gave.
     *
     * @param given column name, with a unit perhaps, by {@code time} or the key of a channel
     * @throws IllegalArgumentException in words for that person
     */
    public static ColumnNames of(Map<String, String> given) {
        Map<String, Named> names = new LinkedHashMap<>();
        given.forEach((key, value) -> names.put(known(key), named(key, value)));
        return new ColumnNames(names);
    }

    private static String known(String key) {
        if (!key.equals(TIME) && Channel.byKey(key).isEmpty()) {
            throw new IllegalArgumentException(
                    BadCell.quoted(key)
                            + " is nothing that a recording has; allowed are time, inlet, boosted,"
                            + " filtered, running and valve");
        }
        return key;
    }

    private static Named named(String key, String value) {
        int colon = value.lastIndexOf(':');
        Optional<PressureUnit> unit =
                colon < 0 ? Optional.empty() : unit(value.substring(colon + 1));
        boolean hasUnit = Channel.byKey(key).map(Channel::isPressure).orElse(false);
        return unit.isPresent() && hasUnit
                ? new Named(value.substring(0, colon), unit)
                : new Named(value, Optional.empty());
    }

    /** The unit of this symbol, whatever its case. */
    static Optional<PressureUnit> unit(String symbol) {
        for (PressureUnit unit : PressureUnit.values()) {
            if (unit.symbol().toLowerCase(Locale.ROOT).equals(symbol.toLowerCase(Locale.ROOT))) {
                return Optional.of(unit);
            }
        }
        return Optional.empty();
    }
}
