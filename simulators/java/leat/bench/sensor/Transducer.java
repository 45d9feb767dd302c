package leat.bench.sensor;

import static java.util.Objects.requireNonNull;

/**
 * How one transducer is built. Lag and noise of the usual one are invented. Immutable.
 *
 * @param loop its loop and converter
 * @param lagSeconds time constant with which it follows the pressure, 0.001 to 60
 * @param noisePsi standard deviation of its white noise, 0 to 20
 */
public record Transducer(Loop loop, double lagSeconds, double noisePsi) {

    /** That of the invented boatyard. */
    public static final Transducer USUAL = new Transducer(Loop.USUAL, 0.04, 0.3);

    public Transducer {
        requireNonNull(loop, "loop");
        if (!(lagSeconds >= 0.001 && lagSeconds <= 60)) {
            throw new IllegalArgumentException("lag must be 0.001 to 60 s: " + lagSeconds);
        }
        if (!(noisePsi >= 0 && noisePsi <= 20)) {
            throw new IllegalArgumentException("noise must be 0 to 20 psi: " + noisePsi);
        }
    }
}
