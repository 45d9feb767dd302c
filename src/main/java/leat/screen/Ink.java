package leat.screen;

import leat.rule.Grade;

/**
 * How a piece of text is set off. It never says anything that the text does not say too: there are
 * terminals without colours, and eyes.
 */
public enum Ink {
    PLAIN(""),
    FAINT("2"),
    STRONG("1"),
    ADVISORY("1;36"),
    WARNING("1;33"),
    CRITICAL("1;7;31");

    private final String rendition;

    Ink(String rendition) {
        this.rendition = rendition;
    }

    static Ink of(Grade grade) {
        return switch (grade) {
            case ADVISORY -> ADVISORY;
            case WARNING -> WARNING;
            case CRITICAL -> CRITICAL;
        };
    }

    /** The text as a terminal takes it (ECMA-48, select graphic rendition). */
    String on(String text) {
        return rendition.isEmpty() ? text : "\u001b[" + rendition + "m" + text + "\u001b[m";
    }
}
