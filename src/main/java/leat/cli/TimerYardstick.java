package leat.cli;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.locks.LockSupport;

/**
 * How late a bare timer of 50 ms wakes on this computer: what no poll can be better than.
 *
 * @param p50Millis median lateness
 * @param p99Millis 99th percentile
 * @param maxMillis latest
 */
record TimerYardstick(double p50Millis, double p99Millis, double maxMillis) {

    private static final long PERIOD_NANOS = 50_000_000;

    static TimerYardstick run(int seconds) {
        List<Long> late = new ArrayList<>();
        long start = System.nanoTime();
        long polls = seconds * 1_000_000_000L / PERIOD_NANOS;
        for (long i = 1; i <= polls; i++) {
            long deadline = start + i * PERIOD_NANOS;
            while (System.nanoTime() < deadline) {
                LockSupport.parkNanos(deadline - System.nanoTime());
            }
            late.add(System.nanoTime() - deadline);
        }
        Collections.sort(late);
        return new TimerYardstick(at(late, 0.5), at(late, 0.99), at(late, 1));
    }

    private static double at(List<Long> sorted, double share) {
        return sorted.get((int) Math.round(share * (sorted.size() - 1))) / 1e6;
    }
}
