package leat.bench;

import java.time.Duration;

/** What a bench waits for between two samples. Confined to the thread of its bench. */
@FunctionalInterface
public interface Pace {

    /**
     * Waits until it is time for the sample at {@code sinceStart}.
     *
     * @throws InterruptedException if the bench is closed meanwhile
     */
    void await(Duration sinceStart) throws InterruptedException;

    /** Real time, by the monotonic clock; a new one for each bench. */
    static Pace realTime() {
        return new RealTime();
    }
}
