package leat.signal;

import leat.wire.State;

/**
 * Looks at the time that a sensor claims for each reading, and decides when the reading counts as
 * taken: at the claimed time where that lies near the time of arrival, else at its arrival. Three
 * clocks meet here: arrival is by leat's own clock, which runs with the monotonic one; what the
 * computer's clock said is in it since the last {@link ClockStep}; the claim is the sensor's.
 * Thread-confined.
 */
public final class SensorClock {

    private static final long SECOND = 1_000_000;

    private long offMicros;
    private long offSinceMicros = Gauge.NEVER;
    private long offAtMicros = Gauge.NEVER;
    private boolean offNow;
    private long disbelieved;

    /**
     * When a reading counts as taken, microseconds UTC.
     *
     * @param reading as it arrived
     * @param toleranceMicros how far a claim may lie from the arrival, either way, to be believed
     */
    public long timeOf(Reading reading, long toleranceMicros) {
        long at = reading.atMicros();
        long claimed = reading.claimedMicros().orElse(at);
        offNow = !isNear(claimed, at, toleranceMicros);
        if (!offNow) {
            return claimed;
        }
        if (at - offAtMicros > SECOND) {
            offSinceMicros = at;
        }
        offAtMicros = at;
        offMicros = (long) ((double) claimed - at); // no overflow, and exact for any honest time
        disbelieved++;
        return at;
    }

    /** Both ends of the scale are legal claims, so nothing may overflow. */
    private static boolean isNear(long claimed, long at, long tolerance) {
        return claimed >= at - tolerance && claimed <= at + tolerance;
    }

    /** The computer's clock was set: what was off may be right now, and the reverse. */
    void forget() {
        offNow = false;
        offSinceMicros = Gauge.NEVER;
        offAtMicros = Gauge.NEVER;
    }

    /**
     * Since when claims have not been believed, with never a second between two of them in which
     * all were; {@link Gauge#NEVER} when it is not so now.
     */
    public long offSinceMicros(long nowMicros) {
        return offNow || nowMicros - offAtMicros <= SECOND ? offSinceMicros : Gauge.NEVER;
    }

    /** How far the latest claim that was not believed lay from its arrival; positive: ahead. */
    public long offMicros() {
        return offMicros;
    }

    /** Readings so far whose claim was not believed. */
    public long disbelieved() {
        return disbelieved;
    }

    void keep(State state) {
        offMicros = state.keep("offMicros", offMicros);
        offSinceMicros = state.keep("offSinceMicros", offSinceMicros);
        offAtMicros = state.keep("offAtMicros", offAtMicros);
        offNow = state.keep("offNow", offNow);
        disbelieved = state.keep("disbelieved", disbelieved);
    }
}
