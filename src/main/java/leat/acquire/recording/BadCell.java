package leat.acquire.recording;

import leat.signal.PlainText;

/** Something in a row that cannot be read, and what is allowed in its place. */
final class BadCell extends RuntimeException {

    private static final long serialVersionUID = 1;
    private static final int LONGEST_QUOTE = 40;

    private final String allowed;

    BadCell(String what, String allowed) {
        super(what, null, false, false);
        this.allowed = allowed;
    }

    String allowed() {
        return allowed;
    }

    /** Text of a file in quotes, harmless to show and not too long. */
    static String quoted(String text) {
        return "'" + PlainText.harmless(text, LONGEST_QUOTE) + "'";
    }
}
