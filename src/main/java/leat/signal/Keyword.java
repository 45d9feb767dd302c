package leat.signal;

import java.util.Locale;

/** The word for a constant in stores, documents and among phrases. */
public final class Keyword {

    private Keyword() {}

    /** Such as {@code out-of-service} for {@code OUT_OF_SERVICE}. */
    public static String of(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
