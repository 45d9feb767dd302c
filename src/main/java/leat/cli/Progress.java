package leat.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import leat.replay.Past;

/**
 * How far long work has come, for a person at a terminal: one line on the error stream that is
 * written over twice a second, and wiped at the end. Elsewhere silent. Thread-confined.
 */
final class Progress implements AutoCloseable {

    private static final int LOOK_EVERY = 1 << 14;
    private static final long PERIOD_NANOS = 500_000_000;
    private static final String CLEAR_LINE = "\r" + " ".repeat(78) + "\r";

    private final PrintWriter err;
    private final boolean shown;
    private final LongSupplier nanos;
    private long lastNanos;
    private boolean dirty;

    /** For a command: shows itself where a terminal is. */
    static Progress on(PrintWriter err) {
        return new Progress(err, System.console() != null, System::nanoTime);
    }

    /**
     * @param nanos monotonic clock, nanoseconds
     */
    Progress(PrintWriter err, boolean shown, LongSupplier nanos) {
        this.err = err;
        this.shown = shown;
        this.nanos = nanos;
        lastNanos = nanos.getAsLong();
    }

    /**
     * The same past, watched while it is read.
     *
     * @param what in front of the percentage, such as a machine
     * @param inputs how many it has
     */
    Past of(String what, long inputs, Past past) {
        if (!shown) {
            return past;
        }
        return into -> {
            long[] count = {0};
            past.read(
                    input -> {
                        if (++count[0] % LOOK_EVERY == 0) {
                            look(what, count[0], inputs);
                        }
                        into.accept(input);
                    });
        };
    }

    private void look(String what, long count, long of) {
        long percent = Math.min(100, 100 * count / Math.max(1, of));
        show(() -> String.format(Locale.ROOT, "%s: %d %% of %,d inputs", what, percent, of));
    }

    /** Says how far it is, in at most 78 characters, where there is somebody to see it. */
    void show(Supplier<String> words) {
        long now = nanos.getAsLong();
        if (!shown || now - lastNanos < PERIOD_NANOS) {
            return;
        }
        lastNanos = now;
        dirty = true;
        err.print(CLEAR_LINE + words.get());
        err.flush();
    }

    @Override
    public void close() {
        if (dirty) {
            err.print(CLEAR_LINE);
            err.flush();
        }
    }
}
