package leat.words;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
                : new Reading().of(reported, DEEPEST).orElse(reported);
    }

    /** One text that is read back. */
    private final class Reading {

        private final Map<String, Optional<String>> before = new HashMap<>();

        /** Empty where no phrase fits. */
        Optional<String> of(String text, int deepest) {
            String key = deepest + text;
            if (!before.containsKey(key)) {
                before.put(
                        key,
                        deepest == 0
                                ? Optional.empty()
                                : FORMS.stream()
                                        .flatMap(form -> by(form, text, deepest - 1).stream())
                                        .findFirst());
            }
            return before.get(key);
        }

        /** A phrase that is nothing but signs fits much: one of its values must be known. */
        private Optional<String> by(Form form, String text, int deepest) {
            Optional<List<String>> values = form.read(text);
            if (values.isEmpty()
                    || form.isOfSigns()
                            && values.get().stream().allMatch(v -> of(v, deepest).isEmpty())) {
                return Optional.empty();
            }
            Object[] said = values.get().stream().map(value -> value(value, deepest)).toArray();
            return Optional.of(phrases.say(form.key(), said));
        }

        private String value(String text, int deepest) {
            return of(text, deepest)
                    .orElseGet(
                            () ->
                                    DECIMAL.matcher(text).matches()
                                            ? text.replace(
                                                    '.', Numbers.decimalPoint(phrases.language()))
                                            : text);
        }
    }

    /**
     * An English phrase that can be read back.
     *
     * @param key of the phrase
     * @param letters of its own: the more, the surer
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
            int letters = (int) String.join("", fixed).chars().filter(Character::isLetter).count();
            return new Form(key, letters, order, Pattern.compile(regex.toString(), Pattern.DOTALL));
        }

        boolean isOfSigns() {
            return letters == 0;
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
     * The surest first. Of those that have nothing but signs the colon comes before the semicolon:
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
