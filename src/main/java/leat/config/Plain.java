package leat.config;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Writes numbers as a person would. */
public final class Plain {

    private static final MathContext SIX_DIGITS = new MathContext(6, RoundingMode.HALF_EVEN);

    private Plain() {}

    /** Without trailing zeros and exponent; six digits at most. */
    public static String number(double value) {
        BigDecimal rounded = BigDecimal.valueOf(value).round(SIX_DIGITS);
        return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
    }
}
