package leat.json;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.NoSuchElementException;

/**
 * The records of a sealed interface by the word for each: {@code StartupMeasured} is {@code
 * startup-measured}. Immutable.
 *
 * @param <T> the sealed interface
 */
public final class Kinds<T> {

    private final Map<String, Class<? extends T>> byWord = new LinkedHashMap<>();

    private Kinds(Class<T> sealed) {
        add(sealed);
    }

    public static <T> Kinds<T> of(Class<T> sealed) {
        return new Kinds<>(sealed);
    }

    private void add(Class<? extends T> type) {
        if (!type.isSealed()) {
            byWord.put(word(type), type);
            return;
        }
        for (Class<?> permitted : type.getPermittedSubclasses()) {
            add(permitted.asSubclass(type));
        }
    }

    public static String word(Class<?> type) {
        return type.getSimpleName()
                .replaceAll("(?<=[a-z0-9])(?=[A-Z])", "-")
                .toLowerCase(Locale.ROOT);
    }

    /** Every record by its word. */
    public Map<String, Class<? extends T>> types() {
        return Map.copyOf(byWord);
    }

    /**
     * @throws NoSuchElementException for a word that no record of this interface has
     */
    public Class<? extends T> type(String word) {
        Class<? extends T> type = byWord.get(word);
        if (type == null) {
            throw new NoSuchElementException("there is no kind " + word);
        }
        return type;
    }
}
