package leat.bench.recording;

import java.util.Arrays;
import java.util.OptionalDouble;

/** Counts pressures in small steps, so that a median of any length of time needs one size. */
final class Levels {

    private static final double LOWEST_PSI = -20;
    private static final double STEP_PSI = 0.02;
    private static final int STEPS = 20_000;

    private final long[] counts = new long[STEPS];
    private long total;

    void add(double psi) {
        long step = Math.round((psi - LOWEST_PSI) / STEP_PSI);
        counts[(int) Math.min(Math.max(step, 0), STEPS - 1)]++;
        total++;
    }

    void clear() {
        Arrays.fill(counts, 0);
        total = 0;
    }

    /** The median, to a hundredth of a psi; none where nothing was added. */
    OptionalDouble median() {
        if (total == 0) {
            return OptionalDouble.empty();
        }
        long passed = 0;
        int step = -1;
        while (2 * passed < total) {
            step++;
            passed += counts[step];
        }
        return OptionalDouble.of(LOWEST_PSI + step * STEP_PSI);
    }
}
