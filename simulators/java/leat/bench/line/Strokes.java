package leat.bench.line;

import java.util.Random;

/**
 * The intensifier drawing water in strokes. Their rate is a little irregular and never locked to
 * the sampling. Thread-confined.
 */
final class Strokes {

    private static final double SLOWEST_HZ = 0.85;
    private static final double HZ_SPREAD = 0.2;
    private static final double IRREGULARITY = 0.03;
    private static final double PULSE_SECONDS = 0.17;
    private static final double EDGE_SECONDS = 0.05;

    private final Random random;
    private final double meanHz;
    private final Lag pulse = new Lag(0);
    private double hz;
    private double sinceStroke;

    Strokes(Random random) {
        this.random = random;
        meanHz = SLOWEST_HZ + HZ_SPREAD * random.nextDouble();
        hz = meanHz;
    }

    /**
     * Lets time pass.
     *
     * @return how hard the present stroke draws, 0 to 1
     */
    double advance(boolean drawing, double seconds) {
        sinceStroke += seconds;
        if (sinceStroke >= 1 / hz) {
            sinceStroke -= 1 / hz;
            hz = meanHz * (1 + IRREGULARITY * random.nextGaussian());
        }
        boolean pulling = drawing && sinceStroke < PULSE_SECONDS;
        return pulse.follow(pulling ? 1 : 0, EDGE_SECONDS, seconds);
    }
}
