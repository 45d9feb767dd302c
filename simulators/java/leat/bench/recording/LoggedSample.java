package leat.bench.recording;

import leat.bench.scenario.Sample;
import leat.bench.sensor.Loop;
import leat.bench.sensor.Tap;

/**
 * One line of a recording: the pressures as a logger has them.
 *
 * @param micros since the start
 */
record LoggedSample(
        long micros,
        double inletPsi,
        double boostedPsi,
        double filteredPsi,
        boolean running,
        boolean valveOpen,
        boolean cutting) {

    /** How a logger writes a loop that says it has failed: no pressure that a line can have. */
    static final double FAILED_LOW_PSI = -50;

    static final double FAILED_HIGH_PSI = 999;

    static LoggedSample of(Sample sample) {
        return new LoggedSample(
                sample.micros(),
                logged(sample, Tap.INLET),
                logged(sample, Tap.BOOSTED),
                logged(sample, Tap.FILTERED),
                sample.running(),
                sample.valveOpen(),
                sample.cutting());
    }

    private static double logged(Sample sample, Tap tap) {
        double milliamps = sample.milliamps(tap);
        if (milliamps <= Loop.FAILURE_LOW_MA) {
            return FAILED_LOW_PSI;
        }
        return milliamps >= Loop.FAILURE_HIGH_MA ? FAILED_HIGH_PSI : sample.psi(tap);
    }
}
