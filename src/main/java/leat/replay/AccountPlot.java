package leat.replay;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.report.Glyphs;
import leat.report.Shown;
import leat.report.Sketch;
import leat.report.TextPlot;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;

/**
 * The curve of an account: the whole past where it is short, else the startup that is told of.
 *
 * @param times how times are shown
 * @param glyphs what the terminal can show
 */
record AccountPlot(AccountTimes times, Glyphs glyphs) {

    private static final int CHARACTERS = 76;
    private static final double SECOND = 1e6;

    /** A longer past is shown by one startup. */
    private static final long WHOLE_MICROS = 120_000_000;

    private static final long BEFORE_START_MICROS = 3_000_000;
    private static final long AFTER_START_MICROS = 15_000_000;

    /** What the plot is of. */
    private record Window(long from, long to, boolean isNearStart) {}

    /** The startup with whose measurement the past ends: then it is about that one. */
    static Optional<JudgedStartup> endsWith(Replayed replayed) {
        return replayed.startups().stream()
                .filter(s -> s.startup().measuredAtMicros() == replayed.toMicros())
                .findFirst();
    }

    /**
     * @param past is read once
     * @param told the startup that is told of
     */
    List<String> lines(Replayed replayed, Past past, Optional<JudgedStartup> told) {
        Window window = window(replayed, told);
        int columns = TextPlot.columns(glyphs, CHARACTERS);
        Sketch inlet = new Sketch(window.from(), window.to(), columns);
        Sketch boosted = new Sketch(window.from(), window.to(), columns);
        past.read(input -> add(input, inlet, boosted));
        Limits limits = replayed.settings().limits();
        Shown shown = times.shown();
        boolean plain = glyphs == Glyphs.ASCII;
        List<String> lines = new ArrayList<>();
        boolean hasInlet = replayed.settings().wired().contains(Channel.INLET);
        lines.add(
                String.format(
                        "%6s   boosted %s%s",
                        shown.unit().symbol(),
                        plain ? "#" : "solid",
                        hasInlet ? ", inlet " + (plain ? "o" : "dotted") : ""));
        TextPlot plot =
                new TextPlot(inlet, boosted, glyphs, shown.unit())
                        .limit(limits.get(Limit.LEVEL_HIGH_ADVISORY), "high")
                        .limit(limits.get(Limit.LEVEL_WARNING), "low");
        if (hasInlet) {
            plot.limit(limits.get(Limit.INLET_WARNING), "inlet low");
        }
        lines.addAll(plot.lines());
        lines.add(axis(window));
        lines.add("");
        return lines;
    }

    private static Window window(Replayed replayed, Optional<JudgedStartup> told) {
        long from = replayed.fromMicros();
        long to = Math.max(from, replayed.toMicros());
        boolean near =
                told.isPresent() && (endsWith(replayed).isPresent() || to - from > WHOLE_MICROS);
        if (!near) {
            return new Window(from, to, false);
        }
        long started = told.get().startup().startedAtMicros();
        long measured = told.get().startup().measuredAtMicros();
        long end = Math.min(to, Math.max(measured, started + AFTER_START_MICROS));
        return new Window(started - BEFORE_START_MICROS, Math.max(started, end), true);
    }

    private static void add(Input input, Sketch inlet, Sketch boosted) {
        if (input instanceof Reading reading) {
            if (reading.channel() == Channel.INLET) {
                inlet.add(reading);
            } else if (reading.channel() == Channel.BOOSTED) {
                boosted.add(reading);
            }
        }
    }

    /** The ends of the time axis; near a startup in seconds from it. */
    private String axis(Window window) {
        String left = window.isNearStart() ? "3 s before the start" : times.text(window.from());
        double after = (window.to() - window.from() - BEFORE_START_MICROS) / SECOND;
        String right =
                window.isNearStart()
                        ? String.format(Locale.ROOT, "%.0f s after it", after)
                        : times.text(window.to());
        int gap = Math.max(1, CHARACTERS - left.length() - right.length());
        return " ".repeat(8) + left + " ".repeat(gap) + right;
    }
}
