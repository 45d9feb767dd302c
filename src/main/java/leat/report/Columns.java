package leat.report;

/** How many columns of a terminal text takes. */
public final class Columns {

    private static final int FIRST_PICTURE = 0x1F300;

    private Columns() {}

    public static int of(String text) {
        return text.codePoints().map(Columns::of).sum();
    }

    private static int of(int point) {
        int type = Character.getType(point);
        if (type == Character.NON_SPACING_MARK || type == Character.ENCLOSING_MARK) {
            return 0;
        }
        return isWide(point) ? 2 : 1;
    }

    /** Signs of East Asia and pictures take two. */
    private static boolean isWide(int point) {
        return switch (Character.UnicodeScript.of(point)) {
            case HAN, HIRAGANA, KATAKANA, HANGUL, BOPOMOFO, YI -> true;
            default -> point >= FIRST_PICTURE || point >= 0xFF01 && point <= 0xFF60;
        };
    }

    /** As much of the text as fits, with an ellipsis at its end where something is left out. */
    public static String cut(String text, int columns) {
        if (of(text) <= columns) {
            return text;
        }
        return text.substring(0, fitting(text, columns - 1)).stripTrailing() + "\u2026";
    }

    /** So many characters from the first on fit. */
    static int fitting(String text, int columns) {
        int end = 0;
        int taken = 0;
        while (end < text.length() && taken + of(text.codePointAt(end)) <= columns) {
            taken += of(text.codePointAt(end));
            end += Character.charCount(text.codePointAt(end));
        }
        return end;
    }

    public static String padded(String text, int columns) {
        return text + " ".repeat(Math.max(0, columns - of(text)));
    }
}
