package leat.config;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * One of a few words.
 *
 * @param <E> what the word stands for
 */
final class ChoiceForm<E> implements Form<E> {

    private final Map<String, E> byWord = new LinkedHashMap<>();
    private final Function<E, String> word;

    private ChoiceForm(List<E> choices, Function<E, String> word) {
        this.word = word;
        choices.forEach(choice -> byWord.put(word.apply(choice), choice));
    }

    static <E> ChoiceForm<E> of(List<E> choices, Function<E, String> word) {
        return new ChoiceForm<>(choices, word);
    }

    @Override
    public Optional<E> read(Cursor at) {
        String words = String.join(", ", byWord.keySet());
        Optional<String> text = at.text("one of: " + words);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        E choice = byWord.get(text.get());
        if (choice == null) {
            at.wrong(
                    Cursor.quote(text.get()) + " is none of the words allowed",
                    "one of: " + words + "." + Spelling.didYouMean(text.get(), byWord.keySet()));
        }
        return Optional.ofNullable(choice);
    }

    @Override
    public String print(E value) {
        return word.apply(value);
    }

    @Override
    public String unit() {
        return String.join(", ", byWord.keySet());
    }

    @Override
    public Map<String, Object> schema() {
        return Map.of("enum", List.copyOf(byWord.keySet()));
    }
}
