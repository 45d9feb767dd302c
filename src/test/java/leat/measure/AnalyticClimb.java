package leat.measure;

import java.util.Random;

/**
 * A climb whose course is a formula, as a transducer would give it: sampled at a rate with a random
 * phase, with white noise, rounded to the steps of a converter. Times from 0; the climb begins at
 * {@code startSecond}.
 */
final class AnalyticClimb {

    /** 12 bits over 0 to 20 mA, 0 to 200 psi over 4 to 20 mA: 20 / 4095 mA a step. */
    static final double TWELVE_BITS_PSI = 20.0 / 4095 / 16 * 200;

    private final Random random;
    private double hertz = 20;
    private double noisePsi = 0.3;
    private double stepPsi = TWELVE_BITS_PSI;
    private double basePsi = 2;
    private double amplitudePsi = 98;
    private double startSecond = 5;
    private double endSecond = 17;
    private double tauSeconds = 0.6;
    private double zeta = Double.NaN;
    private double rampSeconds;
    private double omega;
    private double strokeHertz;
    private double strokePsi;
    private double strokeDropPsi;
    private double strokesSecond = Double.POSITIVE_INFINITY;
    private double phase;
    private boolean jitter;

    AnalyticClimb(long seed) {
        random = new Random(seed * 0x9E3779B97F4A7C15L);
        startSecond += random.nextDouble();
    }

    /** Draws from the range of usual lines: 10 to 100 Hz, noise 0.05 to 1.2 psi. */
    static AnalyticClimb drawn(long seed) {
        AnalyticClimb climb = new AnalyticClimb(seed);
        double[] rates = {10, 20, 50, 100};
        climb.hertz = rates[climb.random.nextInt(rates.length)];
        climb.noisePsi = 0.05 * Math.pow(24, climb.random.nextDouble());
        climb.basePsi = climb.between(0, 40);
        climb.amplitudePsi = climb.between(50, 110);
        climb.tauSeconds = climb.between(0.4, 1.2);
        return climb;
    }

    /** A drawn climb of second order, damping 0.3 to 0.7. */
    static AnalyticClimb drawnRinging(long seed) {
        AnalyticClimb climb = drawn(seed);
        return climb.secondOrder(climb.between(0.3, 0.7), climb.between(2, 5));
    }

    /** A drawn climb, 1.5 s at its level and 8 s of strokes of 0.6 to 1.5 Hz, 1.5 to 5 psi. */
    static AnalyticClimb drawnStroking(long seed, double dropPsi) {
        AnalyticClimb climb = drawn(seed);
        double quiet = 8 * climb.tauSeconds + 1.5;
        return climb.strokes(climb.between(0.6, 1.5), climb.between(1.5, 5), quiet, dropPsi)
                .lasting(quiet + 8);
    }

    /** A drawn climb along a straight line, ended by the regulator. */
    static AnalyticClimb drawnRamp(long seed) {
        AnalyticClimb climb = drawn(seed);
        climb.rampSeconds = climb.between(0.8, 4);
        return climb;
    }

    double between(double least, double most) {
        return least + (most - least) * random.nextDouble();
    }

    AnalyticClimb sampled(double rate) {
        hertz = rate;
        return this;
    }

    /** Each sample up to 30 % of an interval early or late, with its true time. */
    AnalyticClimb irregularly() {
        jitter = true;
        return this;
    }

    AnalyticClimb noisy(double sdPsi) {
        noisePsi = sdPsi;
        return this;
    }

    AnalyticClimb rounded(double psi) {
        stepPsi = psi;
        return this;
    }

    AnalyticClimb levels(double base, double amplitude) {
        basePsi = base;
        amplitudePsi = amplitude;
        return this;
    }

    AnalyticClimb lasting(double seconds) {
        endSecond = startSecond + seconds;
        return this;
    }

    AnalyticClimb firstOrder(double tau) {
        tauSeconds = tau;
        zeta = Double.NaN;
        return this;
    }

    AnalyticClimb secondOrder(double damping, double wn) {
        zeta = damping;
        omega = wn;
        return this;
    }

    /** Sinusoidal strokes from so many seconds after the start on, and a lower level with them. */
    AnalyticClimb strokes(double hz, double amplitude, double afterSeconds, double drop) {
        strokeHertz = hz;
        strokePsi = amplitude;
        strokesSecond = startSecond + afterSeconds;
        strokeDropPsi = drop;
        return this;
    }

    double base() {
        return basePsi;
    }

    double top() {
        return basePsi + amplitudePsi;
    }

    double amplitude() {
        return amplitudePsi;
    }

    double start() {
        return startSecond;
    }

    double tau() {
        return tauSeconds;
    }

    /** Percent of the amplitude, by the formula of a second-order rise. */
    double overshoot() {
        return 100 * Math.exp(-Math.PI * zeta / Math.sqrt(1 - zeta * zeta));
    }

    double zeta() {
        return zeta;
    }

    double strokeHz() {
        return strokeHertz;
    }

    /** Standard deviation of the strokes about their mean of 1.5 s. */
    double rippleSd() {
        double angle = Math.PI * strokeHertz * 1.5;
        return strokePsi / Math.sqrt(2) * Math.abs(1 - Math.sin(angle) / angle);
    }

    /** From the 50 % instant to the last entry into 2 % about the top, on a grid of 5e-4 s. */
    double settle() {
        double second = endSecond;
        while (Math.abs(truth(second) - top()) <= 0.02 * amplitudePsi) {
            second -= 5e-4;
        }
        return second - instant(0.5);
    }

    double noisePsi() {
        return noisePsi;
    }

    double hertz() {
        return hertz;
    }

    /** The pressure without noise and rounding. */
    double truth(double second) {
        double since = second - startSecond;
        double psi = basePsi + (since <= 0 ? 0 : amplitudePsi * course(since));
        double stroking = second - strokesSecond;
        if (stroking > 0) {
            psi -= strokeDropPsi * Math.min(1, stroking / 0.3);
            psi -= strokePsi * Math.sin(2 * Math.PI * strokeHertz * stroking);
        }
        return psi;
    }

    /** Slope of the straight line by least squares between two instants, psi a second. */
    double slope(double from, double to) {
        int n = 10_000;
        double middle = (from + to) / 2;
        double products = 0;
        double squares = 0;
        for (int i = 0; i < n; i++) {
            double off = from + (i + 0.5) / n * (to - from) - middle;
            products += off * truth(middle + off);
            squares += off * off;
        }
        return products / squares;
    }

    private double course(double since) {
        if (rampSeconds > 0) {
            return Math.min(1, since / rampSeconds);
        }
        if (Double.isNaN(zeta)) {
            return 1 - Math.exp(-since / tauSeconds);
        }
        double damped = omega * Math.sqrt(1 - zeta * zeta);
        return 1
                - Math.exp(-zeta * omega * since)
                        * (Math.cos(damped * since)
                                + zeta / Math.sqrt(1 - zeta * zeta) * Math.sin(damped * since));
    }

    /** When a share of the amplitude is first reached, found to 1e-6 s. */
    double instant(double share) {
        double low = startSecond;
        double high = startSecond;
        while (truth(high) < basePsi + share * amplitudePsi) {
            low = high;
            high += 0.01;
        }
        for (int i = 0; i < 40; i++) {
            double middle = (low + high) / 2;
            if (truth(middle) < basePsi + share * amplitudePsi) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high;
    }

    Stretch stretch() {
        Curve curve = new Curve();
        double interval = 1 / hertz;
        phase = random.nextDouble() * interval;
        for (int i = 0; phase + i * interval <= endSecond; i++) {
            double off = jitter ? (random.nextDouble() - 0.5) * 0.6 * interval : 0;
            long at = Math.round((phase + i * interval + off) * 1e6);
            double psi = truth(at / 1e6) + noisePsi * random.nextGaussian();
            curve.add(at, stepPsi > 0 ? Math.rint(psi / stepPsi) * stepPsi : psi);
        }
        return Stretch.of(curve, Long.MIN_VALUE / 2, Long.MAX_VALUE / 2, 0);
    }

    /** The same samples' times with the true pressures. */
    Stretch clean(Stretch like) {
        Curve curve = new Curve();
        for (int i = 0; i < like.size(); i++) {
            curve.add(Math.round(like.second(i) * 1e6), truth(like.second(i)));
        }
        return Stretch.of(curve, Long.MIN_VALUE / 2, Long.MAX_VALUE / 2, 0);
    }
}
