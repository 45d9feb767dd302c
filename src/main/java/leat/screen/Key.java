package leat.screen;

/**
 * What a person typed.
 *
 * @param kind which kind of key
 * @param number of a number key, from 1 on; else 0
 */
record Key(Kind kind, int number) {

    /** Ctrl-C, where it comes as a character. */
    private static final int END_OF_TEXT = 3;

    /** Ctrl-D. */
    private static final int END_OF_FILE = 4;

    /** What a key does. */
    enum Kind {
        /** Nothing was typed. */
        NONE,
        /** Ends the picture. */
        END,
        /** The machine above. */
        UP,
        /** The machine below. */
        DOWN,
        /** The machine of this number. */
        NUMBER,
        /** Does nothing. */
        OTHER
    }

    static Key of(Kind kind) {
        return new Key(kind, 0);
    }

    /**
     * @param code of a character; below 0 for the end of what is typed
     */
    static Key of(int code) {
        if (code < 0 || code == 'q' || code == 'Q' || code == END_OF_TEXT || code == END_OF_FILE) {
            return of(Kind.END);
        }
        return code >= '1' && code <= '9' ? new Key(Kind.NUMBER, code - '0') : of(Kind.OTHER);
    }

    /** An arrow, by the last character of its sequence. */
    static Key arrow(int code) {
        return switch (code) {
            case 'A' -> of(Kind.UP);
            case 'B' -> of(Kind.DOWN);
            default -> of(Kind.OTHER);
        };
    }
}
