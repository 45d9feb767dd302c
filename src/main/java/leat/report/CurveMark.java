package leat.report;

import static java.util.Objects.requireNonNull;

import leat.signal.Channel;

/**
 * A reason, marked in a curve where it can be seen. Immutable.
 *
 * @param curve whose curve: {@link Channel#INLET} or {@link Channel#BOOSTED}
 * @param second seconds since the start
 * @param psi on the curve
 * @param text a few words
 */
public record CurveMark(Channel curve, double second, double psi, String text) {

    public CurveMark {
        requireNonNull(curve, "curve");
        requireNonNull(text, "text");
        if (!Double.isFinite(second) || !Double.isFinite(psi)) {
            throw new IllegalArgumentException(text + " at " + second + " s, " + psi + " psi");
        }
    }
}
