package leat.report;

import java.util.Locale;
import leat.rule.Grade;
import leat.rule.RunVerdict;

/** Shapes beside the words, so that no colour is needed to tell one from another. */
public final class Marks {

    private static final String BEGIN =
            "<svg class=\"shape\" viewBox=\"0 0 16 16\" aria-hidden=\"true\" focusable=\"false\">";

    private Marks() {}

    /** A ring, a triangle, a filled octagon: the graver, the more of it is filled. */
    public static String of(Grade grade) {
        return BEGIN
                + switch (grade) {
                    case ADVISORY -> "<circle cx=\"8\" cy=\"8\" r=\"5.5\" class=\"ring\"/>";
                    case WARNING -> "<path d=\"M8 1.5L15 14.5H1Z\"/>";
                    case CRITICAL -> "<path d=\"M5 1h6l4 4v6l-4 4H5l-4-4V5Z\"/>";
                }
                + "</svg>";
    }

    /** The class of what is of this grade, in the style. */
    public static String type(Grade grade) {
        return grade.name().toLowerCase(Locale.ROOT);
    }

    /** A tick. */
    public static String good() {
        return BEGIN + "<path class=\"ring\" d=\"M2.5 8.5l3.5 4l7-9\"/></svg>";
    }

    /** A cross. */
    public static String bad() {
        return BEGIN + "<path class=\"ring\" d=\"M3 3l10 10M13 3L3 13\"/></svg>";
    }

    /** A diamond, for what is not as it usually is. */
    static String unlike() {
        return BEGIN + "<path class=\"ring\" d=\"M8 1.5L14.5 8 8 14.5 1.5 8Z\"/></svg>";
    }

    /** Of what a run was judged by; none where it was not judged. */
    static String of(RunVerdict.Mark mark) {
        return switch (mark) {
            case GOOD -> good();
            case ADVISORY -> of(Grade.ADVISORY);
            case WARNING -> of(Grade.WARNING);
            case CRITICAL -> of(Grade.CRITICAL);
            case NOT_JUDGED -> "";
        };
    }
}
