package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import leat.signal.Quality;
import leat.signal.Reading;

/**
 * What a channel has read over some seconds, and whether that is one pressure. The figures are
 * leat's own choice, no published source.
 *
 * @param count of the readings
 * @param unfit the quality of one that is not to be relied on, where there is one
 * @param meanPsi of those with a number
 * @param spreadPsi from the lowest to the highest
 * @param driftPsi by which the second half is above the first
 */
public record Steadiness(
        int count, Optional<Quality> unfit, double meanPsi, double spreadPsi, double driftPsi) {

    private static final int ENOUGH = 10;

    /** Shares of the span. */
    private static final double STILL = 0.02;

    private static final double DRIFTING = 0.0025;
    private static final double NEAR_ZERO = 0.05;
    private static final double NEAR_GAUGE = 0.1;
    private static final double HIGH_ENOUGH = 0.2;

    /** What speaks against taking it for zero, or for what a hand gauge shows. */
    public enum Objection {
        TOO_FEW,
        UNFIT,
        MOVES,
        FAR_FROM_ZERO,
        TOO_LOW,
        FAR_FROM_GAUGE
    }

    public Steadiness {
        requireNonNull(unfit, "unfit");
    }

    public static Steadiness of(List<Reading> readings) {
        double[] psi =
                readings.stream()
                        .filter(reading -> reading.quality().isUsable())
                        .mapToDouble(Reading::value)
                        .toArray();
        Optional<Quality> unfit =
                readings.stream()
                        .map(Reading::quality)
                        .filter(quality -> !isFit(quality))
                        .findFirst();
        if (psi.length == 0) {
            return new Steadiness(readings.size(), unfit, 0, 0, 0);
        }
        int half = psi.length / 2;
        double least = psi[0];
        double most = psi[0];
        double sum = 0;
        double firstHalf = 0;
        for (int i = 0; i < psi.length; i++) {
            least = Math.min(least, psi[i]);
            most = Math.max(most, psi[i]);
            sum += psi[i];
            firstHalf += i < half ? psi[i] : 0;
        }
        double drift = half == 0 ? 0 : (sum - firstHalf) / (psi.length - half) - firstHalf / half;
        return new Steadiness(readings.size(), unfit, sum / psi.length, most - least, drift);
    }

    /** A zero that has wandered down lies below the measuring band. */
    private static boolean isFit(Quality quality) {
        return quality == Quality.GOOD || quality == Quality.LOOP_BELOW_BAND;
    }

    private Optional<Objection> toAny(double spanPsi) {
        if (unfit.isPresent()) {
            return Optional.of(Objection.UNFIT);
        }
        if (count < ENOUGH) {
            return Optional.of(Objection.TOO_FEW);
        }
        boolean moves = spreadPsi > STILL * spanPsi || Math.abs(driftPsi) > DRIFTING * spanPsi;
        return moves ? Optional.of(Objection.MOVES) : Optional.empty();
    }

    /** Empty where it may be the zero of a transducer with that span. */
    public Optional<Objection> toZero(double spanPsi) {
        return toAny(spanPsi)
                .or(
                        () ->
                                Math.abs(meanPsi) > NEAR_ZERO * spanPsi
                                        ? Optional.of(Objection.FAR_FROM_ZERO)
                                        : Optional.empty());
    }

    /** Empty where a transducer with that span may be set by what a hand gauge shows. */
    public Optional<Objection> toGauge(double gaugePsi, double spanPsi) {
        Optional<Objection> objection = toAny(spanPsi);
        if (objection.isEmpty() && Math.min(gaugePsi, meanPsi) < HIGH_ENOUGH * spanPsi) {
            return Optional.of(Objection.TOO_LOW);
        }
        if (objection.isEmpty() && Math.abs(gaugePsi - meanPsi) > NEAR_GAUGE * spanPsi) {
            return Optional.of(Objection.FAR_FROM_GAUGE);
        }
        return objection;
    }
}
