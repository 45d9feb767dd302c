package leat.screen;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.report.Glyphs;
import org.jline.terminal.Attributes;
import org.jline.terminal.Terminal;
import org.jline.terminal.TerminalBuilder;

/**
 * The terminal that a picture is painted on: its window is taken over and given back as it was,
 * also on Ctrl-C and SIGTERM. One frame is one write, and holds only the lines that have changed:
 * nothing flickers, and little goes over a slow line.
 *
 * <p>Painted and asked for keys by one thread; closed by any.
 */
final class LiveTerminal implements AutoCloseable {

    private static final String TAKE = "\u001b[?1049h\u001b[?25l\u001b[2J";
    private static final String GIVE_BACK = "\u001b[m\u001b[?25h\u001b[?1049l";
    private static final int ESCAPE = 27;
    private static final int SEQUENCE_MILLIS = 50;
    private static final Size UNKNOWN = new Size(80, 24);

    private final Terminal terminal;
    private final Attributes before;
    private final OutputStream out = new FileOutputStream(FileDescriptor.out);
    private final Glyphs glyphs;
    private final boolean inColour;
    private final Thread atExit = new Thread(this::close, "leat-terminal-end");
    private final List<String> painted = new ArrayList<>();
    private volatile boolean isEnded;
    private volatile boolean isOther = true;
    private Size size = UNKNOWN;
    private boolean isClosed;

    private LiveTerminal(Terminal terminal, Glyphs glyphs, boolean inColour) {
        this.terminal = terminal;
        this.glyphs = glyphs;
        this.inColour = inColour;
        before = terminal.getAttributes();
    }

    /** Empty where there is no terminal, or one that cannot be painted on. */
    static Optional<LiveTerminal> open(Glyphs glyphs, boolean inColour) {
        String type = System.getenv("TERM");
        if (System.console() == null || type == null || type.isEmpty() || type.equals("dumb")) {
            return Optional.empty();
        }
        try {
            Terminal found =
                    TerminalBuilder.builder()
                            .system(true)
                            .dumb(false)
                            .provider("exec")
                            .nativeSignals(true)
                            .build();
            LiveTerminal live = new LiveTerminal(found, glyphs, inColour);
            live.take();
            return Optional.of(live);
        } catch (IOException | IllegalStateException e) {
            // the site is told in lines instead
            return Optional.empty();
        }
    }

    private void take() {
        Runtime.getRuntime().addShutdownHook(atExit);
        terminal.handle(Terminal.Signal.INT, signal -> isEnded = true);
        terminal.handle(Terminal.Signal.WINCH, signal -> isOther = true);
        terminal.handle(
                Terminal.Signal.CONT,
                signal -> {
                    enter();
                    isOther = true;
                });
        enter();
    }

    /** Each key comes at once and is not shown; none of them stops leat while the window is its. */
    private synchronized void enter() {
        if (isClosed) {
            return;
        }
        terminal.enterRawMode();
        Attributes raw = terminal.getAttributes();
        raw.setControlChar(Attributes.ControlChar.VSUSP, 0);
        raw.setControlChar(Attributes.ControlChar.VQUIT, 0);
        terminal.setAttributes(raw);
        write(TAKE);
    }

    /** Whether the window was made larger or smaller, or has to be painted anew. */
    boolean isOther() {
        return isOther;
    }

    /** Of the window now. */
    Size size() {
        if (isOther) {
            isOther = false;
            org.jline.terminal.Size now = terminal.getSize();
            boolean isKnown = now.getColumns() > 0 && now.getRows() > 0;
            size = isKnown ? new Size(now.getColumns(), now.getRows()) : UNKNOWN;
            painted.clear();
        }
        return size;
    }

    /**
     * Shows these rows and nothing else.
     *
     * @return false when nobody can see it any more
     */
    synchronized boolean paint(List<Row> rows) {
        if (isClosed) {
            return false;
        }
        StringBuilder frame = new StringBuilder(painted.isEmpty() ? "\u001b[2J" : "");
        for (int line = 0; line < Math.max(rows.size(), painted.size()); line++) {
            String now = line < rows.size() ? plain(rows.get(line).drawn(inColour)) : "";
            String former = line < painted.size() ? painted.get(line) : "";
            if (!now.equals(former)) {
                frame.append("\u001b[").append(line + 1).append(";1H\u001b[2K").append(now);
            }
        }
        painted.clear();
        rows.forEach(row -> painted.add(plain(row.drawn(inColour))));
        return frame.length() == 0 || write(frame.toString());
    }

    /** On a terminal that takes ASCII alone each sign becomes one of its own, as wide as it was. */
    private String plain(String text) {
        if (glyphs != Glyphs.ASCII) {
            return text;
        }
        return Normalizer.normalize(text, Normalizer.Form.NFD)
                .replaceAll("\\p{M}", "")
                .replace('\u00df', 's')
                .replace('\u2026', '~')
                .replaceAll("[^\\x00-\\x7f]", "?");
    }

    private boolean write(String text) {
        try {
            out.write(text.getBytes(glyphs == Glyphs.ASCII ? US_ASCII : UTF_8));
            return true;
        } catch (IOException e) {
            return false; // the window is gone
        }
    }

    /** What was typed, after a while of waiting at most. */
    Key key(int millis) {
        try {
            int code = terminal.reader().read(millis);
            if (isEnded || code == -1) {
                return Key.of(Key.Kind.END);
            }
            if (code < 0) {
                return Key.of(Key.Kind.NONE);
            }
            return code == ESCAPE ? sequence() : Key.of(code);
        } catch (IOException | IllegalStateException e) {
            return Key.of(Key.Kind.END);
        }
    }

    private Key sequence() throws IOException {
        int next = terminal.reader().read(SEQUENCE_MILLIS);
        return next == '[' || next == 'O'
                ? Key.arrow(terminal.reader().read(SEQUENCE_MILLIS))
                : Key.of(Key.Kind.OTHER);
    }

    /** Gives the window back as it was. */
    @Override
    public void close() {
        synchronized (this) {
            if (isClosed) {
                return;
            }
            isClosed = true;
            write(GIVE_BACK);
        }
        try {
            terminal.setAttributes(before);
            terminal.close();
        } catch (IOException | IllegalStateException e) {
            // the window is gone, or has been given back already
        }
        if (Thread.currentThread() != atExit) {
            unhook();
        }
    }

    private void unhook() {
        try {
            Runtime.getRuntime().removeShutdownHook(atExit);
        } catch (IllegalStateException e) {
            // the program ends at this moment; the hook finds it closed
        }
    }
}
