package leat.measure;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.wire.State;

/**
 * How often the readings of a gauge broke off in a run and came back, as those of a loose loop do.
 * A single such reading is no break, nor are several within a moment; what a device cannot read or
 * refuses to tell is no loop's fault. Thread-confined.
 */
final class Breaks {

    private static final Set<Quality> OFF =
            EnumSet.of(Quality.LOOP_BROKEN, Quality.LOOP_SHORTED, Quality.OUT_OF_RANGE);

    private static final int LEAST_READINGS = 2;
    private static final long LEAST_MICROS = 300_000;

    private final Measurand measurand;
    private long offSinceMicros;
    private long offReadings;
    private long breaks;

    Breaks(Measurand measurand) {
        this.measurand = measurand;
    }

    /** A reading came, BAD or usable. */
    void read(Reading reading) {
        if (OFF.contains(reading.quality())) {
            offSinceMicros = offReadings == 0 ? reading.atMicros() : offSinceMicros;
            offReadings++;
        } else if (offReadings > 0 && reading.quality().isUsable()) {
            boolean lasted = reading.atMicros() - offSinceMicros >= LEAST_MICROS;
            breaks += lasted && offReadings >= LEAST_READINGS ? 1 : 0;
            offReadings = 0;
        }
    }

    void clear() {
        offReadings = 0;
        breaks = 0;
    }

    /** Adds the number, where there is any. */
    void into(Map<Measurand, Figure> figures) {
        if (breaks > 0) {
            figures.put(measurand, Figure.of(breaks));
        }
    }

    void keep(State state) {
        offSinceMicros = state.keep("offSinceMicros", offSinceMicros);
        offReadings = state.keep("offReadings", offReadings);
        breaks = state.keep("breaks", breaks);
    }
}
