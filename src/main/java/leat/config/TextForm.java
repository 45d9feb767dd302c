package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Text that keeps to a rule.
 *
 * @param unit what kind of text it is, in one or two words
 * @param pattern the rule, as a regular expression that Java and JSON Schema read alike
 * @param allowed the rule in plain words
 */
record TextForm(String unit, Pattern pattern, String allowed) implements Form<String> {

    private static final int LONGEST = 1000;

    /** One line that is not blank. */
    static final TextForm LINE =
            new TextForm(
                    "text",
                    Pattern.compile("[^\\u0000-\\u001f]*[^ \\u0000-\\u001f][^\\u0000-\\u001f]*"),
                    "text on one line");

    TextForm {
        requireNonNull(unit, "unit");
        requireNonNull(pattern, "pattern");
        requireNonNull(allowed, "allowed");
    }

    @Override
    public Optional<String> read(Cursor at) {
        Optional<String> text = at.text(allowed);
        if (text.isEmpty()) {
            return text;
        }
        if (text.get().length() > LONGEST || !pattern.matcher(text.get()).matches()) {
            at.wrong(Cursor.quote(text.get()) + " is not allowed here", allowed);
            return Optional.empty();
        }
        return text;
    }

    @Override
    public String print(String value) {
        return value;
    }

    @Override
    public Map<String, Object> schema() {
        Map<String, Object> schema = new LinkedHashMap<>();
        schema.put("type", List.of("string", "number", "boolean"));
        schema.put("pattern", "^" + pattern.pattern() + "$");
        schema.put("maxLength", LONGEST);
        return schema;
    }
}
