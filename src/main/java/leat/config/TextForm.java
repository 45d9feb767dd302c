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
 * @param mayBeShown false where people may put a secret by mistake: then no message quotes it
 */
record TextForm(String unit, Pattern pattern, String allowed, boolean mayBeShown)
        implements Form<String> {

    private static final int LONGEST = 1000;

    /** One line that is not blank. */
    static final TextForm LINE =
            new TextForm(
                    "text",
                    Pattern.compile(
                            "[^\\u0000-\\u001f\\u007f-\\u009f\\u2028\\u2029]*"
                                    + "[^ \\u0000-\\u001f\\u007f-\\u009f\\u2028\\u2029]"
                                    + "[^\\u0000-\\u001f\\u007f-\\u009f\\u2028\\u2029]*"),
                    "text on one line");

    TextForm(String unit, Pattern pattern, String allowed) {
        this(unit, pattern, allowed, true);
    }

    TextForm {
        requireNonNull(unit, "unit");
        requireNonNull(pattern, "pattern");
        requireNonNull(allowed, "allowed");
    }

    TextForm neverShown() {
        return new TextForm(unit, pattern, allowed, false);
    }

    @Override
    public Optional<String> read(Cursor at) {
        Optional<String> text = at.text(allowed);
        if (text.isEmpty()) {
            return text;
        }
        boolean fits = text.get().length() <= LONGEST && isWhole(text.get());
        if (!fits || !pattern.matcher(text.get()).matches()) {
            String what = mayBeShown ? Cursor.quote(text.get()) : "the text that stands here";
            at.wrong(what + " cannot stand here", allowed);
            return Optional.empty();
        }
        return text;
    }

    /**
     * Half a surrogate pair, which an escape of YAML can make, stands in no file and on no wire.
     */
    private static boolean isWhole(String text) {
        return text.codePoints().noneMatch(c -> Character.getType(c) == Character.SURROGATE);
    }

    @Override
    public String print(String value) {
        return value;
    }

    @Override
    public Map<String, Object> schema() {
        Map<String, Object> schema = new LinkedHashMap<>();
        schema.put("type", List.of("string", "number", "boolean"));
        schema.put("pattern", "^(" + pattern.pattern() + ")$");
        schema.put("maxLength", LONGEST);
        return schema;
    }
}
