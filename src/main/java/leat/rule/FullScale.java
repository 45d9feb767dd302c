package leat.rule;

import leat.signal.Gauge;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.wire.State;

/**
 * How long a channel has read the top of its range. A peak is there for a moment; a loop that is
 * shorted or a pressure beyond the transducer stands there. Thread-confined.
 */
final class FullScale {

    /** No feed line stands at such a pressure to the bit: it is the end of the usual transducer. */
    static final double HIGHEST_PSI = 200;

    private static final long PEAK_MICROS = 1_000_000;

    private double latestPsi;
    private long latestMicros = Gauge.NEVER;
    private long sinceMicros = Gauge.NEVER;

    /** Takes the next usable reading. */
    void read(Reading reading) {
        boolean same = latestMicros != Gauge.NEVER && reading.value() == latestPsi;
        boolean stands = same && latestPsi >= HIGHEST_PSI;
        if (!isAtTop(reading.quality()) && !stands) {
            sinceMicros = Gauge.NEVER;
        } else if (sinceMicros == Gauge.NEVER) {
            sinceMicros = reading.atMicros();
        }
        latestPsi = reading.value();
        latestMicros = reading.atMicros();
    }

    private static boolean isAtTop(Quality quality) {
        return quality == Quality.AT_TOP || quality == Quality.LOOP_ABOVE_BAND;
    }

    /** Since when it has stood there; {@link Gauge#NEVER} when it does not. */
    long sinceMicros() {
        return isStanding() ? sinceMicros : Gauge.NEVER;
    }

    /** True when it has been there for longer than a peak. */
    boolean isStanding() {
        return sinceMicros != Gauge.NEVER && latestMicros - sinceMicros >= PEAK_MICROS;
    }

    /** BAD readings came, or event time has jumped. */
    void forget() {
        latestMicros = Gauge.NEVER;
        sinceMicros = Gauge.NEVER;
    }

    void keep(State state) {
        latestPsi = state.keep("latestPsi", latestPsi);
        latestMicros = state.keep("latestMicros", latestMicros);
        sinceMicros = state.keep("sinceMicros", sinceMicros);
    }
}
