package leat.service;

import java.util.Optional;
import java.util.function.LongSupplier;
import leat.signal.ClockStep;

/**
 * Two of the three times that leat keeps apart. <em>Own time</em> runs with the monotonic clock, is
 * slewed when it differs a little from the computer's clock, and never steps: sources stamp with
 * it. <em>Event time</em> is own time and all steps that the computer's clock has made; each is
 * told. The third, what a sensor claims, travels in the reading. Thread-safe; {@link #discipline}
 * belongs to the engine thread.
 */
final class EventClock {

    private static final long STEP_MICROS = 500_000;

    /** At most so much is slewed at one look; looks come at least each second. */
    private static final long SLEW_MICROS = 500;

    /**
     * Two looks further apart than this say nothing of each other: leat was not run in between.
     * Decision 0023.
     */
    private static final long ONE_LOOK_NANOS = 20_000_000;

    private final LongSupplier wallMicros;
    private final LongSupplier nanos;
    private final long beganMicros;
    private final long beganNanos;

    private volatile long slewedMicros;

    /** Event time less own time. */
    private volatile long steppedMicros;

    /**
     * @param wallMicros wall clock, microseconds UTC
     * @param nanos monotonic clock, nanoseconds
     */
    EventClock(LongSupplier wallMicros, LongSupplier nanos) {
        this.wallMicros = wallMicros;
        this.nanos = nanos;
        beganMicros = wallMicros.getAsLong();
        beganNanos = nanos.getAsLong();
    }

    /** Own time: the wall clock when this was made, and what has passed since. */
    long ownMicros() {
        return ownMicros(nanos.getAsLong());
    }

    private long ownMicros(long nanosNow) {
        return beganMicros + (nanosNow - beganNanos) / 1_000 + slewedMicros;
    }

    /** Event time now, microseconds UTC. */
    long nowMicros() {
        return eventMicros(ownMicros());
    }

    /** The event time of a moment of own time, by what is known of the computer's clock now. */
    long eventMicros(long ownMicros) {
        return ownMicros + steppedMicros;
    }

    /** Compares the two clocks; the step if the wall clock was set. */
    Optional<ClockStep> discipline() {
        long nanosNow = nanos.getAsLong();
        long wall = wallMicros.getAsLong();
        if (nanos.getAsLong() - nanosNow > ONE_LOOK_NANOS) {
            return Optional.empty();
        }
        long now = eventMicros(ownMicros(nanosNow));
        long apart = wall - now;
        if (Math.abs(apart) > STEP_MICROS) {
            steppedMicros += apart;
            return Optional.of(new ClockStep(wall, now));
        }
        slewedMicros += Math.max(-SLEW_MICROS, Math.min(SLEW_MICROS, apart));
        return Optional.empty();
    }
}
