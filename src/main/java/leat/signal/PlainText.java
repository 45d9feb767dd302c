package leat.signal;

/**
 * Makes text that came from outside (a payload, a name, a note) safe to show: it stays on one line,
 * drives no terminal and turns no reading direction.
 */
public final class PlainText {

    private PlainText() {}

    /**
     * The text with every control, format and separator character written out as an escape.
     *
     * @param atMost longest text returned, in characters; a longer one ends in {@code ...}
     */
    public static String harmless(String text, int atMost) {
        StringBuilder out = new StringBuilder(Math.min(text.length(), atMost) + 8);
        for (int i = 0; i < text.length() && out.length() <= atMost; ) {
            int point = text.codePointAt(i);
            append(out, point);
            i += Character.charCount(point);
        }
        return out.length() <= atMost ? out.toString() : cut(out, atMost);
    }

    /** The text made harmless, however long. */
    public static String harmless(String text) {
        return harmless(text, Integer.MAX_VALUE - 8);
    }

    private static String cut(StringBuilder out, int atMost) {
        int end = Math.max(0, atMost - 3);
        if (end > 0 && Character.isHighSurrogate(out.charAt(end - 1))) {
            end--;
        }
        return out.substring(0, end) + "...";
    }

    private static void append(StringBuilder out, int point) {
        switch (point) {
            case '\n' -> out.append("\\n");
            case '\r' -> out.append("\\r");
            case '\t' -> out.append("\\t");
            default -> {
                if (isHarmless(point)) {
                    out.appendCodePoint(point);
                } else {
                    out.append("\\u{").append(Integer.toHexString(point)).append('}');
                }
            }
        }
    }

    /** Whether a character shows as itself and does nothing else to what it is shown on. */
    public static boolean isHarmless(int point) {
        return switch (Character.getType(point)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR,
                    Character.SURROGATE,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED ->
                    false;
            default -> true;
        };
    }
}
