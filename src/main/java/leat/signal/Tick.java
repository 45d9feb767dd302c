package leat.signal;

/**
 * A whole second of event time has passed. Silence and time-outs are decided on ticks, never by a
 * timer.
 *
 * @param atMicros a whole second, in microseconds UTC
 */
public record Tick(long atMicros) implements Input {

    public static final long PERIOD_MICROS = 1_000_000;

    public Tick {
        if (Math.floorMod(atMicros, PERIOD_MICROS) != 0) {
            throw new IllegalArgumentException("a tick falls on a whole second: " + atMicros);
        }
    }

    /** The last whole second at or before a time. */
    public static long before(long micros) {
        return Math.floorDiv(micros, PERIOD_MICROS) * PERIOD_MICROS;
    }

    @Override
    public Tick at(long micros) {
        return new Tick(micros);
    }

    @Override
    public void to(Receiver receiver) {
        receiver.tick(this);
    }
}
