package leat.config;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Yes or no, in these words or as {@code true} and {@code false}. */
record FlagForm() implements Form<Boolean> {

    private static final Map<String, Boolean> WORDS =
            Map.of("yes", true, "true", true, "no", false, "false", false);
    private static final Map<String, String> OTHER_WORDS =
            Map.of("on", "yes", "off", "no", "1", "yes", "0", "no", "y", "yes", "n", "no");
    private static final String ALLOWED = "yes or no.";

    @Override
    public Optional<Boolean> read(Cursor at) {
        Optional<String> text = at.text(ALLOWED);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Optional<Boolean> value = Optional.ofNullable(WORDS.get(text.get()));
        if (value.isEmpty()) {
            String meant =
                    Optional.ofNullable(OTHER_WORDS.get(text.get()))
                            .map(w -> " Did you mean " + w + "?")
                            .orElse(
                                    Spelling.didYouMean(
                                            text.get(), List.of("yes", "no", "true", "false")));
            at.wrong(Cursor.quote(text.get()) + " is neither yes nor no", ALLOWED + meant);
        }
        return value;
    }

    @Override
    public String print(Boolean value) {
        return value ? "yes" : "no";
    }

    @Override
    public String unit() {
        return "yes, no";
    }

    @Override
    public Map<String, Object> schema() {
        return Map.of("enum", List.of("yes", "no", true, false));
    }
}
