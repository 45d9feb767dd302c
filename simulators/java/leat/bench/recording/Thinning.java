package leat.bench.recording;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Leaves out rows while the machine rests: the seconds before a start, the run, and the minute
 * after it keep every row. Thread-confined.
 */
final class Thinning {

    private static final long BEFORE_MICROS = 5_000_000;
    private static final long AFTER_MICROS = 60_000_000;

    /** Takes what is kept. */
    @FunctionalInterface
    interface Sink {
        void take(LoggedSample row) throws IOException;
    }

    private final Sink sink;
    private final long restMicros;
    private final Deque<LoggedSample> held = new ArrayDeque<>();
    private long fullUntil;
    private long keptMicros = Long.MIN_VALUE / 2;

    /**
     * One that has seen nothing yet.
     *
     * @param restHz rows a second to keep at rest
     */
    Thinning(double restHz, Sink sink) {
        this.sink = sink;
        restMicros = Math.round(1e6 / restHz);
    }

    void add(LoggedSample row) throws IOException {
        held.addLast(row);
        if (row.running() || row.valveOpen()) {
            while (!held.isEmpty()) {
                keep(held.removeFirst());
            }
            fullUntil = row.micros() + AFTER_MICROS;
        }
        while (!held.isEmpty() && held.getFirst().micros() < row.micros() - BEFORE_MICROS) {
            thin(held.removeFirst());
        }
    }

    private void thin(LoggedSample row) throws IOException {
        if (row.micros() <= fullUntil || row.micros() - keptMicros >= restMicros) {
            keep(row);
        }
    }

    private void keep(LoggedSample row) throws IOException {
        keptMicros = row.micros();
        sink.take(row);
    }

    /** Lets go of what it still holds. */
    void end() throws IOException {
        while (!held.isEmpty()) {
            thin(held.removeFirst());
        }
    }
}
