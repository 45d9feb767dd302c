package leat.acquire.recording;

import leat.signal.PlainText;

/**
 * Free text on one line and in valid UTF-8, whatever it holds: what would break a line, drive a
 * terminal or cannot stand in UTF-8 is written with a backslash, as a letter for the common ones or
 * as the hexadecimal number of the character in braces. So is the sign of a formula behind one that
 * some spreadsheet parts cells by: comment lines are not quoted, and which separator a spreadsheet
 * goes by is a matter of its country.
 */
final class Escape {

    private static final char BROKEN = '\ufffd';
    private static final String FORMULA = "=+-@";
    private static final String SEPARATORS = ",;|";

    private Escape() {}

    /** Text that stands at the end of a cell. */
    static String text(String text) {
        return escape(text, false);
    }

    /** Text that something follows: blanks and colons are escaped too. */
    static String word(String text) {
        return escape(text, true);
    }

    private static String escape(String text, boolean asWord) {
        StringBuilder out = new StringBuilder(text.length() + 16);
        for (int i = 0; i < text.length(); ) {
            int point = text.codePointAt(i);
            if (FORMULA.indexOf(point) >= 0 && beginsCell(text, i)) {
                number(out, point);
            } else {
                append(out, point, asWord);
            }
            i += Character.charCount(point);
        }
        return out.toString();
    }

    private static void append(StringBuilder out, int point, boolean asWord) {
        switch (point) {
            case '\\' -> out.append("\\\\");
            case '\n' -> out.append("\\n");
            case '\r' -> out.append("\\r");
            case '\t' -> out.append("\\t");
            case ' ' -> out.append(asWord ? "\\s" : " ");
            case ':' -> out.append(asWord ? "\\:" : ":");
            default -> {
                if (isPlain(point)) {
                    out.appendCodePoint(point);
                } else {
                    number(out, point);
                }
            }
        }
    }

    private static void number(StringBuilder out, int point) {
        out.append("\\u{").append(Integer.toHexString(point)).append('}');
    }

    /** Whether nothing but blanks and quotes stand between here and a separator. */
    private static boolean beginsCell(String text, int at) {
        int before = at - 1;
        while (before >= 0 && " \"'".indexOf(text.charAt(before)) >= 0) {
            before--;
        }
        return before >= 0 && SEPARATORS.indexOf(text.charAt(before)) >= 0;
    }

    private static boolean isPlain(int point) {
        return point != BROKEN && PlainText.isHarmless(point);
    }

    /**
     * @throws BadCell for an escape that {@link #text} and {@link #word} never write
     */
    static String undo(String escaped) {
        if (escaped.indexOf('\\') < 0) {
            return escaped;
        }
        StringBuilder out = new StringBuilder(escaped.length());
        for (int i = 0; i < escaped.length(); i++) {
            char c = escaped.charAt(i);
            if (c != '\\') {
                out.append(c);
                continue;
            }
            i++;
            char kind = i < escaped.length() ? escaped.charAt(i) : ' ';
            switch (kind) {
                case '\\', ':' -> out.append(kind);
                case 'n' -> out.append('\n');
                case 'r' -> out.append('\r');
                case 't' -> out.append('\t');
                case 's' -> out.append(' ');
                case 'u' -> i = point(escaped, i, out);
                default -> throw wrong(escaped);
            }
        }
        return out.toString();
    }

    /** Takes {@code u{1f4a7}} at {@code start}; returns the index of its last character. */
    private static int point(String escaped, int start, StringBuilder out) {
        int end = escaped.indexOf('}', start);
        if (end < start + 3 || end > start + 8 || escaped.charAt(start + 1) != '{') {
            throw wrong(escaped);
        }
        try {
            int point = Integer.parseInt(escaped, start + 2, end, 16);
            if (!Character.isValidCodePoint(point)) {
                throw wrong(escaped);
            }
            out.appendCodePoint(point);
        } catch (NumberFormatException e) {
            throw wrong(escaped);
        }
        return end;
    }

    private static BadCell wrong(String escaped) {
        return new BadCell(
                BadCell.quoted(escaped) + " holds a \\ with no meaning",
                "allowed are \\\\ \\n \\r \\t \\s \\: and \\u{hexadecimal}");
    }
}
