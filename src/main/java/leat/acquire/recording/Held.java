package leat.acquire.recording;

import java.util.EnumMap;
import java.util.Map;
import java.util.function.Consumer;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;

/**
 * Readings of a logger that writes only what changes: the last value of each pressure is repeated
 * twice a second, as {@link Quality#HELD}, until it changes or has been held for too long. What has
 * been written unchanged is held too: nobody can tell whether it was read anew. Thread-confined.
 *
 * <p>No value is repeated in the half second before it changes, so that no climb is seen steeper
 * than the logger may have looked.
 */
final class Held implements Consumer<Input> {

    static final long EVERY_MICROS = 500_000;

    /** The last that was written of a channel. */
    private static final class Last {
        private Reading written;
        private long toldMicros;
        private long untilMicros;
    }

    private final long holdMicros;
    private final Consumer<Input> into;
    private final Map<Channel, Last> last = new EnumMap<>(Channel.class);
    private long nextMicros = Long.MIN_VALUE;
    private long repeated;

    /**
     * @param holdMicros how long a value holds at most
     */
    Held(long holdMicros, Consumer<Input> into) {
        this.holdMicros = holdMicros;
        this.into = into;
    }

    /** The next row is at hand; what it holds is not repeated just before it. */
    void beforeRow(CsvLine row) {
        last.forEach(
                (channel, value) ->
                        value.untilMicros =
                                row.has(channel)
                                        ? row.atMicros() - EVERY_MICROS
                                        : row.atMicros() - 1);
    }

    /** Passes everything between that row and the one before. */
    void fill(long atMicros) {
        if (nextMicros == Long.MIN_VALUE) {
            return;
        }
        for (; nextMicros <= atMicros; nextMicros += EVERY_MICROS) {
            last.values().forEach(this::repeat);
        }
    }

    private void repeat(Last value) {
        if (nextMicros - value.toldMicros >= EVERY_MICROS
                && nextMicros <= value.untilMicros
                && nextMicros - value.written.atMicros() <= holdMicros) {
            value.toldMicros = nextMicros;
            repeated++;
            into.accept(held(value.written, nextMicros));
        }
    }

    private static Reading held(Reading written, long atMicros) {
        return new Reading(written.channel(), atMicros, written.value(), Quality.HELD);
    }

    @Override
    public void accept(Input input) {
        if (input instanceof Reading reading && reading.channel().isPressure()) {
            into.accept(written(reading));
            return;
        }
        if (input instanceof ClockStep) {
            last.clear();
            nextMicros = Long.MIN_VALUE;
        } else if (input instanceof Tick) {
            fill(input.atMicros());
        }
        into.accept(input);
    }

    private Reading written(Reading reading) {
        if (nextMicros == Long.MIN_VALUE) {
            nextMicros = (Math.floorDiv(reading.atMicros(), EVERY_MICROS) + 1) * EVERY_MICROS;
        }
        if (!reading.quality().isUsable()) {
            last.remove(reading.channel());
            return reading;
        }
        Last value = last.computeIfAbsent(reading.channel(), channel -> new Last());
        boolean same = value.written != null && value.written.value() == reading.value();
        value.written = reading;
        value.toldMicros = reading.atMicros();
        value.untilMicros = Long.MAX_VALUE;
        return same ? held(reading, reading.atMicros()) : reading;
    }

    /** Readings so far that no row holds. */
    long repeated() {
        return repeated;
    }
}
