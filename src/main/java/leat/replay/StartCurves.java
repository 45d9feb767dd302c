package leat.replay;

import java.util.function.Consumer;
import leat.measure.Startup;
import leat.report.Trace;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;

/**
 * The two pressures around a start, gathered from a past. Thread-confined.
 *
 * <p>From 3 s before the start to 5 s after it was measured.
 */
final class StartCurves implements Consumer<Input> {

    private static final long BEFORE_MICROS = 3_000_000;
    private static final long AFTER_MICROS = 5_000_000;

    private final long startedAtMicros;
    private final long toMicros;
    private final Trace.Builder inlet = new Trace.Builder();
    private final Trace.Builder boosted = new Trace.Builder();

    private StartCurves(Startup startup) {
        startedAtMicros = startup.startedAtMicros();
        toMicros = startup.measuredAtMicros() + AFTER_MICROS;
    }

    /** Reads a past once. */
    static StartCurves of(Past past, Startup startup) {
        StartCurves curves = new StartCurves(startup);
        past.read(curves);
        return curves;
    }

    @Override
    public void accept(Input input) {
        if (input instanceof Reading reading
                && reading.quality().isUsable()
                && reading.atMicros() >= startedAtMicros - BEFORE_MICROS
                && reading.atMicros() <= toMicros) {
            double second = (reading.atMicros() - startedAtMicros) / 1e6;
            if (reading.channel() == Channel.INLET) {
                inlet.add(second, reading.value());
            } else if (reading.channel() == Channel.BOOSTED) {
                boosted.add(second, reading.value());
            }
        }
    }

    Trace inlet() {
        return inlet.build();
    }

    Trace boosted() {
        return boosted.build();
    }
}
