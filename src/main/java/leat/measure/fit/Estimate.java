package leat.measure.fit;

/**
 * A number that a fit gave, with its uncertainty. Immutable.
 *
 * @param value in the unit that the holder's name says
 * @param halfWidth95 in the same unit, 0 or more: half the width of the interval that holds the
 *     true value in 95 of 100 cases; Student's t with the degrees of freedom of the fit
 */
public record Estimate(double value, double halfWidth95) {

    boolean holds(double truth) {
        return Math.abs(truth - value) <= halfWidth95;
    }
}
