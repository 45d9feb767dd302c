package leat.report;

/** What a terminal can show. */
public enum Glyphs {
    /** Letters, digits and signs of ASCII only. */
    ASCII("_.-=^", "-", "|", "+"),
    /** Braille patterns and blocks, where the terminal takes UTF-8. */
    UNICODE("\u2581\u2582\u2583\u2584\u2585\u2586\u2587\u2588", "\u2504", "\u2502", "\u253c");

    private final String steps;
    private final String limit;
    private final String axis;
    private final String cross;

    Glyphs(String steps, String limit, String axis, String cross) {
        this.steps = steps;
        this.limit = limit;
        this.axis = axis;
        this.cross = cross;
    }

    /** Those that the terminal of this process takes, unless the person wants ASCII. */
    public static Glyphs of(boolean wantAscii) {
        boolean isUtf8 = "UTF-8".equalsIgnoreCase(System.getProperty("native.encoding", ""));
        return wantAscii || !isUtf8 ? ASCII : UNICODE;
    }

    /** For a line of columns, from low to high. */
    public String steps() {
        return steps;
    }

    /** The text with signs that the terminal takes. */
    public String shown(String text) {
        return this == ASCII ? text.replace("\u00b1", "+-") : text;
    }

    String limit() {
        return limit;
    }

    /**
     * An arrow from words to a point.
     *
     * @param down rows from the point to the words; below 0 where they stand above it
     * @param isRight whether they stand to the right of it
     */
    String arrow(int down, boolean isRight) {
        boolean plain = this == ASCII;
        if (down == 0) {
            return isRight ? plain ? "<-" : "\u2190" : plain ? "->" : "\u2192";
        }
        if (plain) {
            return down > 0 == isRight ? "\\" : "/";
        }
        return down > 0 ? isRight ? "\u2196" : "\u2197" : isRight ? "\u2199" : "\u2198";
    }

    String axis() {
        return axis;
    }

    String cross() {
        return cross;
    }
}
