package leat.acquire.recording;

import java.util.function.Consumer;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Tick;

/**
 * The ticks of a recording that has none. The tick of a whole second comes after every row stamped
 * at or before that second and before every later row; the first is at or after the first row, the
 * last at or before the last. Where no row comes for more than a day, a minute passes and then the
 * clock is set. Thread-confined.
 */
final class Seconds {

    private static final long PERIOD = Tick.PERIOD_MICROS;
    static final long LONGEST_SILENCE = 86_400 * PERIOD;
    private static final long SILENCE_SHOWN = 60 * PERIOD;

    private final Consumer<Input> into;
    private boolean begun;
    private long next;
    private long last;
    private long jumps;

    Seconds(Consumer<Input> into) {
        this.into = into;
    }

    /** Passes every second that lies before a row. */
    void beforeRow(long atMicros) {
        if (!begun) {
            begun = true;
            next = atOrAfter(atMicros);
        } else if (atMicros - last > LONGEST_SILENCE) {
            jump(atMicros);
        } else {
            while (next < atMicros) {
                tick();
            }
        }
        last = atMicros;
    }

    private void jump(long atMicros) {
        long until = last + SILENCE_SHOWN;
        while (next <= until) {
            tick();
        }
        into.accept(new ClockStep(atMicros, until));
        next = atOrAfter(atMicros);
        jumps++;
    }

    /** Passes the second that ends with the last row. */
    void end() {
        while (begun && next <= last) {
            tick();
        }
    }

    private void tick() {
        into.accept(new Tick(next));
        next += PERIOD;
    }

    private static long atOrAfter(long micros) {
        return -Math.floorDiv(-micros, PERIOD) * PERIOD;
    }

    /** Silences of more than a day so far. */
    long jumps() {
        return jumps;
    }
}
