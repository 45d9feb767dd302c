package leat.words;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/**
 * What a link, a route or the disk reports of itself. It is made, kept and logged in English, and
 * said in another language by reading it back through the phrases that it was made of. What no
 * phrase fits stays as it is. Immutable.
 */
public final class FaultWords {

    private static final String FAULT = "fault.";
    private static final Phrases ENGLISH = Phrases.in(Language.ENGLISH);

    /** Longer ones are not from leat. */
    private static final int LONGEST = 1_000;

    /** A sentence has no more parts in parts; text from outside may look like it. */
    private static final int DEEPEST = 6;

    private static final Pattern VALUE = Pattern.compile("\\{(\\d)\\}");
    private static final Pattern DECIMAL = Pattern.compile("(\\d+)\\.(\\d+)");
    private static final List<Form> FORMS = forms();

    private final Phrases phrases;

    public FaultWords(Phrases phrases) {
        this.phrases = requireNonNull(phrases, "phrases");
    }

    /**
     * In English, as it is kept and logged.
     *
     * @param key of the phrase, without the {@code fault.} before it
     * @param values for {@code {0}}, {@code {1}} ... in this order
     */
    public static String english(String key, Object... values) {
        return ENGLISH.say(FAULT + key, values);
    }

    /** The same in the language of the phrases. */
    public String of(String reported) {
        return phrases.language() == Language.ENGLISH || reported.length() > LONGEST
                ? reported
                : translated(reported, DEEPEST);
    }

    private String translated(String text, int deepest) {
        for (Form form : deepest == 0 ? List.<Form>of() : FORMS) {
            Optional<List<String>> values = form.read(text);
            if (values.isPresent()) {
                return phrases.say(
                        form.key(),
                        values.get().stream()
                                .map(value -> translated(value, deepest - 1))
                                .toArray());
            }
        }
        return DECIMAL.matcher(text).matches()
                ? text.replace('.', Numbers.decimalPoint(phrases.language()))
                : text;
    }

    /**
     * An English phrase that can be read back.
     *
     * @param key of the phrase
     * @param letters how many of it are no values: the more, the surer
     * @param order which value each group of the pattern is
     * @param pattern that the whole text must fit
     */
    private record Form(String key, int letters, List<Integer> order, Pattern pattern) {

        static Form of(String key) {
            String phrase = ENGLISH.pattern(key).replace("''", "'");
            Matcher value = VALUE.matcher(phrase);
            List<Integer> order =
                    value.results().map(found -> Integer.parseInt(found.group(1))).toList();
            String[] fixed = VALUE.split(phrase, -1);
            // "1 to 7" is a range, "no way to it" is none
            String one = key.endsWith(".numbers") ? "(\\d+)" : "(.+?)";
            StringBuilder regex = new StringBuilder(Pattern.quote(fixed[0]));
            for (int i = 1; i < fixed.length; i++) {
                regex.append(one).append(Pattern.quote(fixed[i]));
            }
            int letters = String.join("", fixed).length();
            return new Form(key, letters, order, Pattern.compile(regex.toString(), Pattern.DOTALL));
        }

        Optional<List<String>> read(String text) {
            Matcher whole = pattern.matcher(text);
            if (!whole.matches()) {
                return Optional.empty();
            }
            return Optional.of(
                    IntStream.range(0, order.size())
                            .mapToObj(value -> whole.group(order.indexOf(value) + 1))
                            .toList());
        }
    }

    /**
     * The surest first. Of two that have nothing but a sign the colon comes before the semicolon:
     * where it is, then what it is and what to check.
     */
    private static List<Form> forms() {
        return ENGLISH.keys(FAULT).stream()
                .map(Form::of)
                .sorted(
                        Comparator.comparingInt(Form::letters)
                                .reversed()
                                .thenComparing(form -> form.pattern().pattern()))
                .toList();
    }
}
