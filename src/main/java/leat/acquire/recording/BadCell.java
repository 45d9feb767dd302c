package leat.acquire.recording;

import java.util.OptionalInt;
import leat.signal.PlainText;

/** Something in a row that cannot be read, and what is allowed in its place. */
final class BadCell extends RuntimeException {

    private static final long serialVersionUID = 1;
    private static final int LONGEST_QUOTE = 40;

    private final String allowed;
    private final int column;

    BadCell(String what, String allowed) {
        this(what, allowed, -1);
    }

    private BadCell(String what, String allowed, int column) {
        super(what, null, false, false);
        this.allowed = allowed;
        this.column = column;
    }

    /** The same, of the cell of this column, counted from 0. */
    BadCell in(int columnIndex) {
        return new BadCell(getMessage(), allowed, columnIndex);
    }

    /** Its column, counted from 0; empty where it is about a whole line. */
    OptionalInt column() {
        return column < 0 ? OptionalInt.empty() : OptionalInt.of(column);
    }

    String allowed() {
        return allowed;
    }

    /** Text of a file as it stands, harmless to show and not too long. */
    static String plain(String text) {
        return PlainText.harmless(text, LONGEST_QUOTE);
    }

    /** Text of a file in quotes, harmless to show and not too long. */
    static String quoted(String text) {
        return "'" + plain(text) + "'";
    }
}
