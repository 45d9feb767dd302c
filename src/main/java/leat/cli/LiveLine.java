package leat.cli;

import java.io.PrintWriter;
import java.time.Duration;
import java.util.Locale;
import java.util.Map;
import leat.report.Shown;
import leat.watch.Glance;

/**
 * What the gauges show, once a second: on a terminal one line that is written over, elsewhere a
 * line every five seconds.
 */
final class LiveLine implements AutoCloseable {

    private static final int SPARSE_SECONDS = 5;

    /** Plain blanks: a log pattern lets no escape through. */
    private static final String CLEAR_LINE = "\r" + " ".repeat(100) + "\r";

    private final PrintWriter out;
    private final Shown shown;
    private final boolean terminal = System.console() != null;
    private long lastSecond = -SPARSE_SECONDS;

    /** On a terminal, lets each log line begin where the live line stands. Before the first log. */
    static void letTheLogWriteOverIt() {
        if (System.console() != null) {
            System.setProperty("leat.line", CLEAR_LINE);
        }
    }

    LiveLine(PrintWriter out, Shown shown) {
        this.out = out;
        this.shown = shown;
    }

    void show(Duration elapsed, Map<String, Glance> glances) {
        long second = elapsed.toSeconds();
        if (!terminal && second - lastSecond < SPARSE_SECONDS) {
            return;
        }
        lastSecond = second;
        StringBuilder line = new StringBuilder(String.format(Locale.ROOT, "%3d s", second));
        glances.forEach(
                (machine, glance) ->
                        line.append(" | ").append(machine).append(' ').append(words(glance)));
        out.print(terminal ? CLEAR_LINE + line : line + System.lineSeparator());
        out.flush();
    }

    private String words(Glance glance) {
        return String.format(
                Locale.ROOT,
                "%-6s in %10s, out %10s",
                glance.phase().key(),
                glance.inletKnown() ? shown.pressure(glance.inletPsi()) : "?",
                glance.boostedKnown() ? shown.pressure(glance.boostedPsi()) : "?");
    }

    @Override
    public void close() {
        if (terminal) {
            out.println();
        }
    }
}
