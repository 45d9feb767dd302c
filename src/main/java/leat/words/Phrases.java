package leat.words;

import java.text.MessageFormat;
import java.util.List;
import java.util.ResourceBundle;

/**
 * The phrases of one language, from {@code phrases.properties} and its sisters. Immutable.
 *
 * <p>Values are put in as they are: a number that is to be shown comes as text, from {@link
 * Numbers}. Only a count that decides between one and many comes as a number.
 */
public final class Phrases {

    private static final String FILE = "leat.words.phrases";

    private final Language language;
    private final ResourceBundle phrases;

    private Phrases(Language language) {
        this.language = language;
        phrases =
                ResourceBundle.getBundle(
                        FILE,
                        language.locale(),
                        ResourceBundle.Control.getNoFallbackControl(
                                ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    public static Phrases in(Language language) {
        return new Phrases(language);
    }

    public Language language() {
        return language;
    }

    /**
     * A phrase with its values put in.
     *
     * @param key as in the file
     * @param values for {@code {0}}, {@code {1}} ... in this order
     * @throws java.util.MissingResourceException when no language has the phrase
     */
    public String say(String key, Object... values) {
        String phrase = phrases.getString(key);
        return isPlain(phrase)
                ? phrase
                : new MessageFormat(phrase, language.locale()).format(values);
    }

    /** Most are, and a pattern takes long to read. */
    private static boolean isPlain(String phrase) {
        return phrase.indexOf('{') < 0 && phrase.indexOf('\'') < 0;
    }

    /** As it stands in the file. */
    String pattern(String key) {
        return phrases.getString(key);
    }

    /** All that begin so. */
    List<String> keys(String beginning) {
        return phrases.keySet().stream().filter(key -> key.startsWith(beginning)).toList();
    }

    boolean has(String key) {
        return phrases.containsKey(key);
    }
}
