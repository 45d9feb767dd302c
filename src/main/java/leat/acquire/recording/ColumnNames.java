package leat.acquire.recording;

import static java.util.Objects.requireNonNull;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.signal.Channel;

/**
 * Names of columns that differ from leat's own, as a person gives them: {@code inlet=P in}, with a
 * unit {@code inlet=P in:bar}, or with the codes of a contact {@code running=state:2,16}.
 *
 * @param names by {@code time} or the key of a channel
 */
public record ColumnNames(Map<String, Named> names) {

    /** The key of the column that holds the time. */
    public static final String TIME = "time";

    /** leat's own names only. */
    public static final ColumnNames OWN = new ColumnNames(Map.of());

    /**
     * A column as it was given. Only the header tells whether a colon belongs to the name.
     *
     * @param text the name, case does not count, and behind its last colon perhaps a unit or codes
     */
    public record Named(String text) {

        public Named {
            requireNonNull(text, "text");
        }

        /** Whether this whole text is the name. */
        boolean isWholly(String name) {
            return text.strip().equalsIgnoreCase(name);
        }

        /** Whether the text before its last colon is the name. */
        boolean isBeforeColon(String name) {
            int colon = text.lastIndexOf(':');
            return colon >= 0 && text.substring(0, colon).strip().equalsIgnoreCase(name);
        }

        /** What stands behind the last colon; empty where there is none. */
        Optional<String> afterColon() {
            int colon = text.lastIndexOf(':');
            return colon < 0 ? Optional.empty() : Optional.of(text.substring(colon + 1).strip());
        }
    }

    public ColumnNames {
        names = Map.copyOf(names);
    }

    /**
     * Reads what a person gave.
     *
     * @param given column name, with a unit or codes perhaps, by {@code time} or the key of a
     *     channel
     * @throws IllegalArgumentException in words for that person
     */
    public static ColumnNames of(Map<String, String> given) {
        Map<String, Named> names = new LinkedHashMap<>();
        given.forEach((key, value) -> names.put(known(key), new Named(value)));
        return new ColumnNames(names);
    }

    private static String known(String key) {
        if (!key.equals(TIME) && Channel.byKey(key).isEmpty()) {
            throw new IllegalArgumentException(
                    BadCell.quoted(key)
                            + " is nothing that a recording has; allowed are time, "
                            + Stream.of(Channel.values())
                                    .map(Channel::key)
                                    .collect(Collectors.joining(", ")));
        }
        return key;
    }

    Optional<Named> of(String key) {
        return Optional.ofNullable(names.get(key));
    }
}
