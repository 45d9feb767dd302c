package leat.measure.fit;

import java.util.Arrays;
import java.util.Comparator;
import java.util.function.ToDoubleBiFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import leat.measure.Absence;

/**
 * A rise described as second order after a dead time ({@link SecondOrderRise}), with what a reader
 * of the fitted curve would measure on it. Immutable, deterministic.
 *
 * <p>The first guess comes from the first-order fit: for each of several dampings the natural
 * frequency is chosen so that the duration agrees, and the delay so that the 50 % instant does.
 *
 * <p>Overshoot, peak, duration and settling are functions of damping and frequency. Their
 * uncertainty is found by moving both along the axes of their joint uncertainty by its 95 % width
 * and looking how far the number goes: settling jumps where a swing leaves the band of 2 %, which a
 * derivative does not see.
 */
public final class SecondOrderFit {

    /** Five parameters, and two readings to judge them by. */
    static final int LEAST_READINGS = 7;

    private static final double LN_2 = Math.log(2);
    private static final double LN_9 = Math.log(9);
    private static final double[] DAMPINGS = {0.1, 0.2, 0.35, 0.5, 0.7, 0.9, 1.2, 2};
    private static final double[] STRETCHES = {0.5, 0.75, 1, 1.4, 2, 3, 5};
    private static final int FINISHED = 4;
    private static final int MOST_PICKED = 150;
    private static final int LEAST_PICKED = 40;
    private static final double TAUS_BEFORE = 5;
    private static final double TAUS_AFTER = 30;
    private static final int LEAST_INSIDE = 3;
    private static final double LEAST_DAMPING = 1e-3;
    private static final double LEAST_OVERSHOOT = 0.02;

    /** A damping that is less certain than this share of itself is not told. */
    private static final double MOST_UNCERTAIN = 0.5;

    private final Regression fit;
    private final RiseSamples samples;
    private final Spread spread;

    private SecondOrderFit(Regression fit, RiseSamples samples) {
        this.fit = fit;
        this.samples = samples;
        spread = fit.spread(samples.quantumPsi());
    }

    /**
     * Fits with the base held.
     *
     * @param basePsi level before the rise; its own uncertainty is not part of those of the fit
     */
    static Attempt<SecondOrderFit> of(RiseSamples samples, double basePsi) {
        return fit(samples, false, basePsi);
    }

    /** Fits with the base as one of the parameters: needs readings before the rise. */
    static Attempt<SecondOrderFit> withBase(RiseSamples samples) {
        return fit(samples, true, samples.size() == 0 ? 0 : samples.psi()[0]);
    }

    private static Attempt<SecondOrderFit> fit(
            RiseSamples samples, boolean freeBase, double basePsi) {
        if (samples.size() < LEAST_READINGS) {
            return Attempt.absent(Absence.FEWER_THAN_SEVEN);
        }
        if (samples.rangePsi() < FopdtFit.LEAST_RISE_PSI) {
            return Attempt.absent(Absence.ROSE_TOO_LITTLE);
        }
        double[] x = samples.seconds();
        double[] y = samples.psi();
        double[] first = FirstOrderScan.best(x, y, freeBase, basePsi);
        if (!(first[FirstOrderRise.AMPLITUDE] > 0)) {
            return Attempt.absent(Absence.ROSE_TOO_LITTLE);
        }
        int[] free = freeBase ? new int[] {0, 1, 2, 3, 4} : new int[] {0, 1, 2, 3};
        int[] few = picked(x, first);
        double[] fewX = Arrays.stream(few).mapToDouble(i -> x[i]).toArray();
        double[] fewY = Arrays.stream(few).mapToDouble(i -> y[i]).toArray();
        return starts(first)
                .filter(start -> resolved(fewX, start))
                .sorted(Comparator.comparingDouble(start -> squares(fewX, fewY, start)))
                .limit(FINISHED)
                .flatMap(start -> sound(fewX, fewY, start, free))
                .min(Comparator.comparingDouble(Regression::residualSquares))
                .flatMap(rough -> sound(x, y, rough.point(), free).findFirst())
                .map(fit -> new SecondOrderFit(fit, samples).checked())
                .orElseGet(() -> Attempt.absent(Absence.DAMPING_UNTOLD));
    }

    /**
     * Indices of at most 150 readings around the rise, evenly chosen: enough to tell a good first
     * guess from a bad one.
     */
    private static int[] picked(double[] x, double[] first) {
        double tau = 1 / first[FirstOrderRise.RATE];
        double from = first[FirstOrderRise.DELAY] - TAUS_BEFORE * tau;
        double to = first[FirstOrderRise.DELAY] + TAUS_AFTER * tau;
        int[] near = IntStream.range(0, x.length).filter(i -> x[i] >= from && x[i] <= to).toArray();
        int[] all = near.length < LEAST_PICKED ? IntStream.range(0, x.length).toArray() : near;
        int stride = (all.length + MOST_PICKED - 1) / MOST_PICKED;
        return IntStream.range(0, (all.length + stride - 1) / stride)
                .map(i -> all[i * stride])
                .toArray();
    }

    private static Stream<Regression> sound(double[] x, double[] y, double[] start, int[] free) {
        return Regression.of(new SecondOrderRise(), x, y, start, free).stream()
                .filter(fit -> resolved(x, fit.point()));
    }

    /**
     * Whether readings at these times can tell the curve from others: a swing faster than half the
     * sampling rate looks like a slower one.
     */
    private static boolean resolved(double[] x, double[] point) {
        double spacing = (x[x.length - 1] - x[0]) / (x.length - 1);
        double zeta = point[SecondOrderRise.DAMPING];
        double frequency = point[SecondOrderRise.FREQUENCY];
        double swing = frequency * Math.sqrt(Math.max(0, 1 - zeta * zeta));
        return zeta > LEAST_DAMPING && frequency > 0 && swing * spacing < Math.PI;
    }

    private static Stream<double[]> starts(double[] first) {
        double tau = 1 / first[FirstOrderRise.RATE];
        double half = first[FirstOrderRise.DELAY] + tau * LN_2;
        Stream.Builder<double[]> starts = Stream.builder();
        for (double damping : DAMPINGS) {
            SecondOrderShape shape = new SecondOrderShape(damping);
            for (double stretch : STRETCHES) {
                double frequency = shape.duration() / (stretch * tau * LN_9);
                starts.add(
                        new double[] {
                            first[FirstOrderRise.AMPLITUDE],
                            frequency,
                            damping,
                            half - shape.reach(0.5) / frequency,
                            first[FirstOrderRise.BASE]
                        });
            }
        }
        return starts.build();
    }

    private static double squares(double[] x, double[] y, double[] start) {
        SecondOrderRise rise = new SecondOrderRise();
        double[] slopes = new double[rise.parameters()];
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            double residual = y[i] - rise.at(x[i], start, slopes);
            squares += residual * residual;
        }
        return squares;
    }

    private Attempt<SecondOrderFit> checked() {
        double amplitude = fit.parameter(SecondOrderRise.AMPLITUDE);
        if (!(amplitude >= FopdtFit.LEAST_RISE_PSI)) {
            return Attempt.absent(Absence.ROSE_TOO_LITTLE);
        }
        double delay = fit.parameter(SecondOrderRise.DELAY);
        double t90 = delay + shape().reach(0.9) / frequency();
        double seen = shape().overshoots() ? delay + peakOf(damping(), frequency()) : t90;
        boolean begun = delay >= samples.firstSecond() - samples.intervalSeconds();
        if (!begun || !(Math.max(t90, overshootMatters() ? seen : t90) <= samples.lastSecond())) {
            return Attempt.absent(Absence.NOT_LEVELLED);
        }
        if (samples.longestGap(delay, t90)
                > Math.max(
                        FopdtFit.LONGEST_GAP_SECONDS,
                        FopdtFit.GAP_INTERVALS * samples.intervalSeconds())) {
            return Attempt.absent(Absence.GAP_IN_RISE);
        }
        double settled = delay + shape().settled() / frequency();
        if (samples.readings(delay, settled) < LEAST_INSIDE) {
            return Attempt.absent(Absence.TOO_SLOW_FOR_RISE);
        }
        Estimate zeta = dampingRatio();
        if (!(zeta.halfWidth95() < MOST_UNCERTAIN * zeta.value())) {
            return Attempt.absent(Absence.DAMPING_UNTOLD);
        }
        Estimate duration = durationSeconds();
        if (!(duration.halfWidth95() < duration.value())) {
            return Attempt.absent(Absence.DAMPING_UNTOLD);
        }
        return Attempt.of(this);
    }

    private boolean overshootMatters() {
        return shape().overshoot() > LEAST_OVERSHOOT;
    }

    private SecondOrderShape shape() {
        return new SecondOrderShape(damping());
    }

    private double damping() {
        return fit.parameter(SecondOrderRise.DAMPING);
    }

    private double frequency() {
        return fit.parameter(SecondOrderRise.FREQUENCY);
    }

    /** Height of the rise to the level at which it settles, psi above the base. */
    Estimate amplitudePsi() {
        return parameter(SecondOrderRise.AMPLITUDE);
    }

    /** Undamped natural frequency, radians per second. */
    public Estimate frequencyPerSecond() {
        return parameter(SecondOrderRise.FREQUENCY);
    }

    /** 1 is critical; below it the pressure overshoots. */
    public Estimate dampingRatio() {
        return parameter(SecondOrderRise.DAMPING);
    }

    /** The second at which the rise begins, on the time scale of the readings. */
    Estimate delaySecond() {
        return parameter(SecondOrderRise.DELAY);
    }

    /** Level before the rise; without uncertainty where it was held. */
    Estimate basePsi() {
        return parameter(SecondOrderRise.BASE);
    }

    private Estimate parameter(int index) {
        double[] gradient = new double[SecondOrderRise.BASE + 1];
        gradient[index] = 1;
        return spread.estimate(fit.parameter(index), gradient);
    }

    /** Height of the first peak above the settled level, percent of the amplitude. */
    Estimate overshootPercent() {
        return derived((zeta, frequency) -> 100 * new SecondOrderShape(zeta).overshoot());
    }

    /**
     * From the delay to the first peak; absent unless the damping is below 1 by more than its
     * uncertainty and the overshoot leaves the band of 2 %.
     */
    Attempt<Estimate> peakSeconds() {
        Estimate zeta = dampingRatio();
        return zeta.value() + zeta.halfWidth95() < 1 && shape().overshoot() > LEAST_OVERSHOOT
                ? told(derived(SecondOrderFit::peakOf))
                : Attempt.absent(Absence.OVERSHOOT_UNSURE);
    }

    private static Attempt<Estimate> told(Estimate estimate) {
        return estimate.halfWidth95() < estimate.value()
                ? Attempt.of(estimate)
                : Attempt.absent(Absence.DAMPING_UNTOLD);
    }

    private static double peakOf(double zeta, double frequency) {
        return new SecondOrderShape(zeta).peak() / frequency;
    }

    /** 10 to 90 %. */
    Estimate durationSeconds() {
        return derived((zeta, frequency) -> new SecondOrderShape(zeta).duration() / frequency);
    }

    /**
     * From the 50 % instant until the pressure stays within 2 % of the amplitude; absent where its
     * uncertainty is larger than itself, as it is when the damping may be any.
     */
    Attempt<Estimate> settlingSeconds() {
        return told(
                derived(
                        (zeta, frequency) ->
                                new SecondOrderShape(zeta).settlingFrom50() / frequency));
    }

    /** The number, and how far it goes along both axes of the uncertainty of its two parents. */
    private Estimate derived(ToDoubleBiFunction<Double, Double> number) {
        double value = number.applyAsDouble(damping(), frequency());
        double dampingError = dampingRatio().standardError();
        double shared =
                dampingError == 0
                        ? 0
                        : spread.covariance(SecondOrderRise.DAMPING, SecondOrderRise.FREQUENCY)
                                / dampingError;
        double own = frequencyPerSecond().standardError();
        double rest = Math.sqrt(Math.max(0, own * own - shared * shared));
        double along = farthest(number, value, dampingError, shared);
        double across = farthest(number, value, 0, rest);
        double half = Math.hypot(along, across);
        return new Estimate(value, half / spread.student(), half);
    }

    private double farthest(
            ToDoubleBiFunction<Double, Double> number,
            double value,
            double dampingStep,
            double frequencyStep) {
        double farthest = 0;
        for (int side = -1; side <= 1; side += 2) {
            double t = side * spread.student();
            double zeta = Math.max(LEAST_DAMPING, damping() + t * dampingStep);
            double frequency = Math.max(0.05 * frequency(), frequency() + t * frequencyStep);
            double moved = number.applyAsDouble(zeta, frequency) - value;
            if (Double.isFinite(moved)) {
                farthest = Math.max(farthest, Math.abs(moved));
            }
        }
        return farthest;
    }

    double residualSdPsi() {
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
