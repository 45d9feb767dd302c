package leat.config;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number and what follows it, such as {@code 50 ms}.
 *
 * @param number the number as it was written, decimal
 * @param unit what follows it; empty for a bare number
 */
record Amount(String number, String unit) {

    /** A decimal number, as a regular expression that Java and JSON Schema read alike. */
    static final String NUMBER = "[-+]?([0-9]+([.][0-9]*)?|[.][0-9]+)([eE][-+]?[0-9]+)?";

    private static final Pattern BARE = Pattern.compile(NUMBER);
    private static final Pattern WITH_UNIT =
            Pattern.compile("(" + NUMBER + ") *([^0-9 .,eE+-].*)?");
    private static final Pattern DECIMAL_COMMA = Pattern.compile("[-+]?[0-9]+,[0-9]+.*");

    static Optional<Amount> parse(String text) {
        Matcher match = WITH_UNIT.matcher(text.strip());
        if (!match.matches()) {
            return Optional.empty();
        }
        String unit = match.group(5) == null ? "" : match.group(5);
        return Optional.of(new Amount(match.group(1), unit));
    }

    static boolean isNumber(String text) {
        return BARE.matcher(text).matches();
    }

    static boolean hasDecimalComma(String text) {
        return DECIMAL_COMMA.matcher(text.strip()).matches();
    }

    /** Infinite when it is too large for a double. */
    double value() {
        return Double.parseDouble(number);
    }
}
