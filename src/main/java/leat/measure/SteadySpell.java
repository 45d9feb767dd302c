package leat.measure;

import static java.util.Objects.requireNonNull;

/**
 * A stretch of steady running, or the part of it that has been closed so far.
 *
 * @param fromMicros first reading counted, microseconds UTC
 * @param toMicros last reading counted, microseconds UTC
 * @param samples boosted readings counted
 * @param inletPsi mean inlet pressure
 * @param boostedPsi mean boosted pressure
 * @param boostedLowPsi lowest boosted reading
 * @param boostedHighPsi highest boosted reading
 * @param ratio mean boosted over mean inlet; absent when the inlet is too low to divide by
 * @param ripplePsi standard deviation of the boosted pressure around its mean of 1.5 s
 * @param wanderPsi standard deviation of that mean
 */
public record SteadySpell(
        long fromMicros,
        long toMicros,
        long samples,
        Figure inletPsi,
        Figure boostedPsi,
        Figure boostedLowPsi,
        Figure boostedHighPsi,
        Figure ratio,
        Figure ripplePsi,
        Figure wanderPsi) {

    public SteadySpell {
        requireNonNull(inletPsi, "inletPsi");
        requireNonNull(boostedPsi, "boostedPsi");
        requireNonNull(boostedLowPsi, "boostedLowPsi");
        requireNonNull(boostedHighPsi, "boostedHighPsi");
        requireNonNull(ratio, "ratio");
        requireNonNull(ripplePsi, "ripplePsi");
        requireNonNull(wanderPsi, "wanderPsi");
    }
}
