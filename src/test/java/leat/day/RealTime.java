package leat.day;

import java.time.Instant;
import java.time.temporal.ChronoUnit;

/** The time of day of this computer, by which a program beside the test can stamp too. */
final class RealTime {

    private RealTime() {}

    /** Microseconds UTC. */
    static long nowMicros() {
        return ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
    }
}
