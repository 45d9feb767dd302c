package leat.service;

import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.LongSupplier;
import leat.signal.ClockStep;

/**
 * Event time: the wall clock to label, disciplined by the monotonic clock to measure. Between two
 * looks it runs with the monotonic clock; a small difference is slewed away, a large one is a step
 * that is told. Thread-safe; {@link #discipline} belongs to the engine thread.
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
    private final AtomicReference<Anchor> anchor = new AtomicReference<>();

    private record Anchor(long wallMicros, long nanos) {}

    /**
     * @param wallMicros wall clock, microseconds UTC
     * @param nanos monotonic clock, nanoseconds
     */
    EventClock(LongSupplier wallMicros, LongSupplier nanos) {
        this.wallMicros = wallMicros;
        this.nanos = nanos;
        anchor.set(new Anchor(wallMicros.getAsLong(), nanos.getAsLong()));
    }

    long nowMicros() {
        return at(anchor.get(), nanos.getAsLong());
    }

    private static long at(Anchor anchor, long nanosNow) {
        return anchor.wallMicros() + (nanosNow - anchor.nanos()) / 1_000;
    }

    /** Compares the two clocks; the step if the wall clock was set. */
    Optional<ClockStep> discipline() {
        long nanosNow = nanos.getAsLong();
        long wall = wallMicros.getAsLong();
        if (nanos.getAsLong() - nanosNow > ONE_LOOK_NANOS) {
            return Optional.empty();
        }
        long own = at(anchor.get(), nanosNow);
        long apart = wall - own;
        if (Math.abs(apart) > STEP_MICROS) {
            anchor.set(new Anchor(wall, nanosNow));
            return Optional.of(new ClockStep(wall, own));
        }
        long slew = Math.max(-SLEW_MICROS, Math.min(SLEW_MICROS, apart));
        anchor.set(new Anchor(own + slew, nanosNow));
        return Optional.empty();
    }
}
