package leat.page;

import java.util.Locale;

/** Numbers of a drawing. */
final class Svg {

    private Svg() {}

    /** With one decimal, which is less than a pixel. */
    static String number(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }
}
