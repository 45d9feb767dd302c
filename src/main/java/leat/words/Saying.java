package leat.words;

import java.util.List;

/**
 * A phrase with its values that is not said in a language yet: who finds out what went wrong need
 * not know who reads it. Immutable.
 *
 * @param key as in the file of phrases
 * @param values for {@code {0}}, {@code {1}} ... in this order; one may be a saying itself
 */
public record Saying(String key, List<Object> values) {

    public Saying {
        values = List.copyOf(values);
    }

    public static Saying of(String key, Object... values) {
        return new Saying(key, List.of(values));
    }

    /** One of some words, such as {@code jet-1 or jet-2}. */
    public static Saying either(List<String> words) {
        return words.stream()
                .map(word -> of("either.one", word))
                .reduce((some, next) -> of("either", some, next))
                .orElseGet(() -> of("either.one", ""));
    }

    /** As it is said in that language. */
    public String in(Phrases phrases) {
        return phrases.say(
                key,
                values.stream()
                        .map(value -> value instanceof Saying part ? part.in(phrases) : value)
                        .toArray());
    }
}
