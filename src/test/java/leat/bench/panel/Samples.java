package leat.bench.panel;

import leat.bench.line.LineState;
import leat.bench.scenario.Sample;
import leat.bench.sensor.Loop;

/** Samples with figures that a test can recognise. */
final class Samples {

    private Samples() {}

    /** Counts that read as these pressures, to the next count. */
    static Sample of(long micros, String machine, double inlet, double boosted, boolean running) {
        return new Sample(
                micros,
                machine,
                new LineState(inlet, boosted, boosted - 2, running, running),
                counts(inlet),
                counts(boosted),
                counts(boosted - 2));
    }

    static int counts(double psi) {
        double current = Loop.ZERO_MA + psi / 200 * (Loop.FULL_MA - Loop.ZERO_MA);
        return (int) Math.round(current / 20.5 * 4095);
    }
}
