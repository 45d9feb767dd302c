package leat.words;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** A language in which leat can say everything. */
public enum Language {
    ENGLISH("en", Locale.ENGLISH),
    GERMAN("de", Locale.GERMAN);

    private final String key;
    private final Locale locale;

    Language(String key, Locale locale) {
        this.key = key;
        this.locale = locale;
    }

    /** As written in configuration and in HTML, ISO 639-1. */
    public String key() {
        return key;
    }

    Locale locale() {
        return locale;
    }

    public static Optional<Language> byKey(String key) {
        return Arrays.stream(values()).filter(language -> language.key.equals(key)).findFirst();
    }
}
