package leat.report;

import leat.signal.PlainText;

/** Text in a page. */
public final class Html {

    private static final int LONGEST = 1_000;

    private Html() {}

    /** Harmless wherever text may stand, and cut where it is too long to be read. */
    public static String escaped(String text) {
        StringBuilder safe = new StringBuilder();
        for (char c : PlainText.harmless(text, LONGEST).toCharArray()) {
            switch (c) {
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '&' -> safe.append("&amp;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.append(c);
            }
        }
        return safe.toString();
    }
}
