package leat.measure;

import java.util.Map;
import leat.wire.State;

/**
 * How often the readings of a gauge broke off in a run and came back, as those of a loose loop do.
 * Thread-confined.
 */
final class Breaks {

    private final Measurand measurand;
    private boolean off;
    private long breaks;

    Breaks(Measurand measurand) {
        this.measurand = measurand;
    }

    /** A reading came, BAD or usable. */
    void read(boolean usable) {
        breaks += off && usable ? 1 : 0;
        off = !usable;
    }

    void clear() {
        off = false;
        breaks = 0;
    }

    /** Adds the number, where there is any. */
    void into(Map<Measurand, Figure> figures) {
        if (breaks > 0) {
            figures.put(measurand, Figure.of(breaks));
        }
    }

    void keep(State state) {
        off = state.keep("off", off);
        breaks = state.keep("breaks", breaks);
    }
}
