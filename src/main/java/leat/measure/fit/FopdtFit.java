package leat.measure.fit;

import java.util.Optional;
import leat.measure.Absence;

/**
 * A rise described as first order after a dead time: base until the delay is over, then {@code base
 * + amplitude (1 - exp(-(t - delay) / time constant))}. Immutable, deterministic.
 *
 * <p>Found by {@link FirstOrderScan} and finished by {@link Regression}, the same fit with which
 * {@link FirstOrderFit} reaches NIST's certified values; uncertainties as said there, to 95 % by
 * Student's t. They hold for the noise, the rounding and the sampling, as far as the rise has this
 * shape: the residuals tell what shape is left over.
 */
public final class FopdtFit {

    private static final double LN_9 = Math.log(9);
    private static final double LN_10 = Math.log(10);

    /** Three or four parameters, and two readings to judge them by. */
    static final int LEAST_READINGS = 6;

    /** A smaller change is no rise. */
    static final double LEAST_RISE_PSI = 10;

    static final double LONGEST_GAP_SECONDS = 0.5;
    static final double GAP_INTERVALS = 4;

    /** With fewer readings on the curved part, delay and time constant cannot be told apart. */
    private static final int LEAST_INSIDE = 2;

    /**
     * The time constant must be this many plain standard errors from nothing. A curve that does not
     * fit widens the stated uncertainty beyond that, but is no matter of sampling: it is told,
     * wide.
     */
    private static final double MOST_ERRORS = 2;

    private static final double LN_50 = Math.log(50);

    /** A block of more than this share of the time constant is too coarse. */
    private static final double COARSE = 0.1;

    private static final double AROUND = 12;

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
    private static Attempt<FopdtFit> judged(Regression fit, RiseSamples samples) {
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
                return Attempt.absent(Absence.TOO_SLOW_FOR_RISE);
            }
            spread = fewer.get().spread(samples.quantumPsi());
        }
        return new FopdtFit(fit, samples, spread).checked();
    }

    /**
     * Fits with the base held.
     *
     * @param basePsi level before the rise; its own uncertainty is not part of those of the fit
     */
    static Attempt<FopdtFit> of(RiseSamples samples, double basePsi) {
        return fit(samples, false, basePsi);
    }

    /** Fits with the base as one of the parameters: needs readings before the rise. */
    static Attempt<FopdtFit> withBase(RiseSamples samples) {
        return fit(samples, true, samples.size() == 0 ? 0 : samples.psi()[0]);
    }

    private static Attempt<FopdtFit> fit(RiseSamples samples, boolean freeBase, double basePsi) {
        Attempt<FopdtFit> coarse = once(samples, freeBase, basePsi);
        if (!coarse.isPresent()) {
            return coarse;
        }
        double tau = coarse.get().timeConstant();
        boolean blocks = samples.blockSeconds() > 1.5 * samples.intervalSeconds();
        if (!blocks || samples.blockSeconds() <= COARSE * tau) {
            return coarse;
        }
        double delay = coarse.get().delay();
        double half = AROUND * Math.max(tau, samples.blockSeconds());
        return once(samples.around(delay - half, delay + half), freeBase, basePsi);
    }

    private static Attempt<FopdtFit> once(RiseSamples samples, boolean freeBase, double basePsi) {
        if (samples.size() < LEAST_READINGS) {
            return Attempt.absent(Absence.FEWER_THAN_SIX);
        }
        if (samples.rangePsi() < LEAST_RISE_PSI) {
            return Attempt.absent(Absence.ROSE_TOO_LITTLE);
        }
        double[] x = samples.seconds();
        double[] y = samples.psi();
        double[] start = FirstOrderScan.best(x, y, freeBase, basePsi);
        int[] free = freeBase ? new int[] {0, 1, 2, 3} : new int[] {0, 1, 2};
        return Regression.of(new FirstOrderRise(), x, y, start, free)
                .map(fit -> judged(fit, samples))
                .orElseGet(() -> Attempt.absent(Absence.TOO_SLOW_FOR_RISE));
    }

    private Attempt<FopdtFit> checked() {
        double tau = timeConstant();
        double amplitude = fit.parameter(FirstOrderRise.AMPLITUDE);
        if (!(amplitude >= LEAST_RISE_PSI) || !(tau > 0)) {
            return Attempt.absent(Absence.ROSE_TOO_LITTLE);
        }
        double t90 = delay() + tau * LN_10;
        if (delay() < samples.firstSecond() || t90 > samples.lastSecond()) {
            return Attempt.absent(Absence.NOT_LEVELLED);
        }
        if (samples.longestGap(delay(), t90)
                > Math.max(LONGEST_GAP_SECONDS, GAP_INTERVALS * samples.intervalSeconds())) {
            return Attempt.absent(Absence.GAP_IN_RISE);
        }
        if (samples.readings(delay(), delay() + tau * LN_50) < LEAST_INSIDE
                || !(MOST_ERRORS * fit.plainError(FirstOrderRise.RATE) * tau < 1)) {
            return Attempt.absent(Absence.TOO_SLOW_FOR_RISE);
        }
        return Attempt.of(this);
    }

    private double timeConstant() {
        return 1 / fit.parameter(FirstOrderRise.RATE);
    }

    private double delay() {
        return fit.parameter(FirstOrderRise.DELAY);
    }

    /** Height of the rise, psi above the base. */
    Estimate amplitudePsi() {
        return spread.estimate(fit.parameter(FirstOrderRise.AMPLITUDE), 1, 0, 0, 0);
    }

    public Estimate timeConstantSeconds() {
        double tau = timeConstant();
        return spread.estimate(tau, 0, -tau * tau, 0, 0);
    }

    /** The second at which the rise begins, on the time scale of the readings. */
    public Estimate delaySecond() {
        return spread.estimate(delay(), 0, 0, 1, 0);
    }

    /** Level before the rise; without uncertainty where it was held. */
    Estimate basePsi() {
        return spread.estimate(fit.parameter(FirstOrderRise.BASE), 0, 0, 0, 1);
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

    public double residualSdPsi() {
        return fit.residualSd();
    }

    int degreesOfFreedom() {
        return fit.degreesOfFreedom();
    }

    Regression regression() {
        return fit;
    }

    RiseSamples samples() {
        return samples;
    }
}
