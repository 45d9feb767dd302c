package leat.cli;

import java.io.PrintWriter;
import java.time.Duration;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import leat.bench.recording.Recorder;

/**
 * How far a long recording is: on a terminal one line that is written over, elsewhere a line every
 * ten seconds. A short one says nothing.
 */
final class RecordProgress implements AutoCloseable {

    private static final long TERMINAL_NANOS = TimeUnit.SECONDS.toNanos(1);
    private static final long SPARSE_NANOS = TimeUnit.SECONDS.toNanos(10);

    private final PrintWriter err;
    private final Duration length;
    private final boolean terminal = System.console() != null;
    private final long begun = System.nanoTime();
    private long shown = begun;
    private boolean hasShown;

    RecordProgress(PrintWriter err, Duration length) {
        this.err = err;
        this.length = length;
    }

    void show(Recorder.Done done) {
        long now = System.nanoTime();
        if (now - shown < (terminal ? TERMINAL_NANOS : SPARSE_NANOS)) {
            return;
        }
        shown = now;
        hasShown = true;
        double share = (double) done.played().toMillis() / length.toMillis();
        long left = Math.round((now - begun) / 1e9 * (1 - share) / share);
        String line =
                String.format(
                        Locale.ROOT,
                        "%s of %s, %d starts, %d MB, about %s left",
                        words(done.played()),
                        words(length),
                        done.starts(),
                        done.bytes() / 1_000_000,
                        words(Duration.ofSeconds(left)));
        err.print(terminal ? "\r" + line + " ".repeat(10) : line + System.lineSeparator());
        err.flush();
    }

    /** A length of time in its two largest units. */
    static String words(Duration time) {
        if (time.compareTo(Duration.ofMinutes(2)) < 0) {
            return time.toSeconds() + " s";
        }
        if (time.compareTo(Duration.ofHours(1)) < 0) {
            int seconds = time.toSecondsPart();
            return time.toMinutes() + " min" + (seconds > 0 ? " " + seconds + " s" : "");
        }
        if (time.compareTo(Duration.ofDays(1)) < 0) {
            return time.toHours() + " h " + time.toMinutesPart() + " min";
        }
        return time.toDays()
                + " d"
                + (time.toHoursPart() > 0 ? " " + time.toHoursPart() + " h" : "");
    }

    @Override
    public void close() {
        if (terminal && hasShown) {
            err.println();
        }
    }
}
