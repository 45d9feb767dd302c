package leat.measure.fit;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import leat.measure.Curve;

/**
 * A rise whose true figures are known, read by a transducer of 200 psi and 12 bits with white noise
 * at a steady rate and any phase between the rise and the first reading. Levels invented.
 */
record TrueRise(double basePsi, double amplitudePsi, double delaySecond, DoubleUnaryOperator step) {

    static final double QUANTUM_PSI = 200.0 / 4095;
    static final double TOTAL_SECONDS = 20;

    static TrueRise firstOrder(double base, double amplitude, double delay, double tau) {
        return new TrueRise(base, amplitude, delay, t -> 1 - Math.exp(-t / tau));
    }

    double psi(double second) {
        double since = second - delaySecond;
        return basePsi + (since < 0 ? 0 : amplitudePsi * step.applyAsDouble(since));
    }

    RiseSamples sampled(double rateHz, double noisePsi, Random random) {
        return samples(curve(rateHz, noisePsi, random));
    }

    Curve curve(double rateHz, double noisePsi, Random random) {
        Curve curve = new Curve();
        for (double t = random.nextDouble() / rateHz; t < TOTAL_SECONDS; t += 1 / rateHz) {
            double psi = psi(t) + noisePsi * random.nextGaussian();
            curve.add(Math.round(t * 1e6), Math.rint(psi / QUANTUM_PSI) * QUANTUM_PSI);
        }
        return curve;
    }

    static RiseSamples samples(Curve curve) {
        double[] seconds = new double[curve.size()];
        double[] psi = new double[curve.size()];
        for (int i = 0; i < seconds.length; i++) {
            seconds[i] = curve.at(i) / 1e6;
            psi[i] = curve.psi(i);
        }
        return RiseSamples.of(seconds, psi);
    }
}
