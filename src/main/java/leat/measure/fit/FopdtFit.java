package leat.measure.fit;

import java.util.Optional;

/**
 * A rise described as first order after a dead time: base until the delay is over, then {@code base
 * + amplitude (1 - exp(-(t - delay) / time constant))}. Immutable, deterministic.
 *
 * <p>Found by {@link FirstOrderScan} and finished by {@link Regression}; uncertainties as said
 * there, to 95 % by Student's t. They hold for the noise, the rounding and the sampling, as far as
 * the rise has this shape: the residuals tell what shape is left over.
 */
final class FopdtFit {

    private static final double LN_9 = Math.log(9);
    private static final double LN_10 = Math.log(10);

    /** Four parameters, and two readings to judge them by. */
    private static final int LEAST_READINGS = 6;

    /** A smaller change is no rise. */
    private static final double LEAST_RISE_PSI = 10;

    private static final double LONGEST_GAP_SECONDS = 0.5;
    private static final double GAP_INTERVALS = 4;

    /** With fewer readings on the curved part, delay and time constant cannot be told apart. */
    private static final int LEAST_INSIDE = 2;

    /**
     * The time constant must be this many plain standard errors from nothing. A curve that does not
     * fit widens the stated uncertainty beyond that, but is no matter of sampling: it is told,
     * wide.
     */
    private static final double MOST_ERRORS = 2;

    private static final double LN_50 = Math.log(50);

    private final Regression fit;
    private final RiseSamples samples;
    private final Spread spread;

    private FopdtFit(Regression fit, RiseSamples samples, Spread spread) {
        this.fit = fit;
        this.samples = samples;
        this.spread = spread;
    }

    /**
     * The curve has a kink at the delay. Where the first reading after it is closer than the
     * uncertainty, that reading may as well belong before it, and then says nothing about the rise:
     * the uncertainty is the one without it.
     */
    private static Optional<FopdtFit> judged(Regression fit, RiseSamples samples) {
        double delay = fit.parameter(FirstOrderRise.DELAY);
        int after = 0;
        while (after < fit.size() && fit.x(after) < delay) {
            after++;
        }
        Spread spread = fit.spread(samples.quantumPsi());
        double half = spread.estimate(delay, 0, 0, 1, 0).halfWidth95();
        if (after < fit.size() && fit.x(after) - delay < half) {
            Optional<Regression> fewer = fit.withoutSlopesAt(after);
            if (fewer.isEmpty()) {
                return Optional.empty();
            }
            spread = fewer.get().spread(samples.quantumPsi());
        }
        return Optional.of(new FopdtFit(fit, samples, spread));
    }

    /**
     * Fits with the base as one of the parameters, so that it needs readings before the rise; empty
     * where these readings do not tell such a rise.
     */
    static Optional<FopdtFit> of(RiseSamples samples) {
        if (samples.size() < LEAST_READINGS || samples.rangePsi() < LEAST_RISE_PSI) {
            return Optional.empty();
        }
        double[] x = samples.seconds();
        double[] y = samples.psi();
        return Regression.of(x, y, FirstOrderScan.best(x, y), 0, 1, 2, 3)
                .flatMap(fit -> judged(fit, samples))
                .filter(FopdtFit::isTold);
    }

    private boolean isTold() {
        double tau = timeConstant();
        double t90 = delay() + tau * LN_10;
        double longestGap =
                Math.max(LONGEST_GAP_SECONDS, GAP_INTERVALS * samples.intervalSeconds());
        return amplitudePsi() >= LEAST_RISE_PSI
                && tau > 0
                && delay() >= samples.firstSecond()
                && t90 <= samples.lastSecond()
                && samples.longestGap(delay(), t90) <= longestGap
                && samples.readings(delay(), delay() + tau * LN_50) >= LEAST_INSIDE
                && MOST_ERRORS * fit.plainError(FirstOrderRise.RATE) * tau < 1;
    }

    double timeConstant() {
        return 1 / fit.parameter(FirstOrderRise.RATE);
    }

    /** The second at which the rise begins, on the time scale of the readings. */
    double delay() {
        return fit.parameter(FirstOrderRise.DELAY);
    }

    /** Height of the rise, psi above the base. */
    double amplitudePsi() {
        return fit.parameter(FirstOrderRise.AMPLITUDE);
    }

    /** 10 to 90 %: ln 9 time constants. */
    Estimate durationSeconds() {
        double tau = timeConstant();
        return spread.estimate(LN_9 * tau, 0, -LN_9 * tau * tau, 0, 0);
    }

    /** The second at which 90 % is reached: ln 10 time constants after the delay. */
    Estimate reach90Second() {
        double tau = timeConstant();
        return spread.estimate(delay() + LN_10 * tau, 0, -LN_10 * tau * tau, 1, 0);
    }

    double residualSdPsi() {
        return fit.residualSd();
    }

    /** Whether the curve leaves over more than noise. */
    boolean leavesShape() {
        return LeftOver.hasShape(fit, samples.quantumPsi(), amplitudePsi());
    }
}
