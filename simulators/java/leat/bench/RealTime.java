package leat.bench;

import java.time.Duration;
import java.util.concurrent.TimeUnit;

/**
 * Real time. Short lateness is caught up; after a long one, such as a suspended computer, the play
 * goes on from where it was instead of rushing.
 */
final class RealTime implements Pace {

    private static final long RUSH_NANOS = TimeUnit.SECONDS.toNanos(1);

    private long origin = System.nanoTime();

    @Override
    public void await(Duration sinceStart) throws InterruptedException {
        long now = System.nanoTime();
        long due = origin + sinceStart.toNanos();
        if (now - due > RUSH_NANOS) {
            origin += now - due;
            due = now;
        }
        while (due - now > 0) {
            TimeUnit.NANOSECONDS.sleep(due - now);
            now = System.nanoTime();
        }
    }
}
