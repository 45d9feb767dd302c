package leat.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.Tick;

/** A line whose booster is started again and again, seconds to a minute apart. Thread-confined. */
final class CloseStarts {

    private static final long STEP_MICROS = 50_000;
    private static final double INLET_PSI = 42;
    private static final double NOISE_PSI = 0.3;

    private final Random random;
    private final List<Input> inputs = new ArrayList<>();
    private long atMicros;
    private double boosted = 1;

    CloseStarts(Random random) {
        this.random = random;
    }

    /** Half a minute at rest, then two to five starts. */
    List<Input> inputs(long startMicros) {
        atMicros = startMicros;
        towards(1, 1, 30);
        int starts = 2 + random.nextInt(4);
        for (int i = 0; i < starts; i++) {
            towards(between(55, 115), between(0.3, 2.5), between(4, 40));
            towards(between(0, 3), between(0.2, 1), between(6, 25));
        }
        return List.copyOf(inputs);
    }

    private double between(double from, double to) {
        return from + random.nextDouble() * (to - from);
    }

    /** The boosted pressure goes towards a level with a time constant. */
    private void towards(double levelPsi, double tauSeconds, double seconds) {
        long end = atMicros + (long) (seconds * 1e6) / STEP_MICROS * STEP_MICROS;
        while (atMicros < end) {
            atMicros += STEP_MICROS;
            boosted += (levelPsi - boosted) * STEP_MICROS / 1e6 / tauSeconds;
            inputs.add(Reading.good(Channel.INLET, atMicros, noisy(INLET_PSI)));
            inputs.add(Reading.good(Channel.BOOSTED, atMicros, noisy(boosted)));
            if (atMicros % Tick.PERIOD_MICROS == 0) {
                inputs.add(new Tick(atMicros));
            }
        }
    }

    private double noisy(double psi) {
        return psi + NOISE_PSI * random.nextGaussian();
    }
}
