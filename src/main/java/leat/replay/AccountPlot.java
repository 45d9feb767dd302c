package leat.replay;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.measure.Startup;
import leat.report.CurveMark;
import leat.report.Glyphs;
import leat.report.Shown;
import leat.report.Sketch;
import leat.report.TextPlot;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.watch.WatchSettings;

/**
 * The curve of an account: the whole past where it is short, else the startup that is told of.
 *
 * @param times how times are shown
 * @param glyphs what the terminal can show
 * @param characters how wide the curve is; with the axis 8 more
 */
record AccountPlot(AccountTimes times, Glyphs glyphs, int characters) {

    private static final double SECOND = 1e6;

    /** A longer past is shown by one startup. */
    private static final long WHOLE_MICROS = 120_000_000;

    private static final long BEFORE_START_MICROS = 3_000_000;
    private static final long AFTER_START_MICROS = 15_000_000;

    /**
     * What the plot is of.
     *
     * @param start around which it is; empty where it is of a whole past
     */
    record Window(long from, long to, Optional<Startup> start) {

        /** Around a start, no further than to the end of what there is. */
        static Window around(Startup startup, long end) {
            long started = startup.startedAtMicros();
            long wanted = Math.max(startup.measuredAtMicros(), started + AFTER_START_MICROS);
            return new Window(
                    started - BEFORE_START_MICROS,
                    Math.max(started, Math.min(end, wanted)),
                    Optional.of(startup));
        }

        /** Where in it a time is, 0 to 1 in it. */
        double share(long micros) {
            return (double) (micros - from) / Math.max(1, to - from);
        }
    }

    /**
     * @param past is read once
     * @param told the startup that is told of
     * @param marks what to point at in its curve
     */
    List<String> lines(
            Replayed replayed, Past past, Optional<JudgedStartup> told, List<CurveMark> marks) {
        return lines(
                replayed.settings(),
                past,
                window(replayed, told),
                told.map(JudgedStartup::startup),
                marks);
    }

    /**
     * @param settings the machine
     * @param past is read once
     * @param marked the start whose curve is marked
     */
    List<String> lines(
            WatchSettings settings,
            Past past,
            Window window,
            Optional<Startup> marked,
            List<CurveMark> marks) {
        int columns = TextPlot.columns(glyphs, characters);
        Sketch inlet = new Sketch(window.from(), window.to(), columns);
        Sketch boosted = new Sketch(window.from(), window.to(), columns);
        past.read(input -> add(input, inlet, boosted));
        Limits limits = settings.limits();
        Shown shown = times.shown();
        boolean plain = glyphs == Glyphs.ASCII;
        List<String> lines = new ArrayList<>();
        boolean hasInlet = settings.wired().contains(Channel.INLET);
        lines.add(
                String.format(
                        "%6s   %s%s",
                        shown.unit().symbol(),
                        shown.say(plain ? "plot.boosted.plain" : "plot.boosted"),
                        hasInlet
                                ? ", " + shown.say(plain ? "plot.inlet.plain" : "plot.inlet")
                                : ""));
        TextPlot plot =
                new TextPlot(inlet, boosted, glyphs, shown.unit())
                        .limit(limits.get(Limit.LEVEL_HIGH_ADVISORY), shown.say("plot.high"))
                        .limit(limits.get(Limit.LEVEL_WARNING), shown.say("plot.low"));
        if (hasInlet) {
            plot.limit(limits.get(Limit.INLET_WARNING), shown.say("plot.inlet-low"));
        }
        for (CurveMark mark : marks) {
            long at = marked.orElseThrow().startedAtMicros() + (long) (SECOND * mark.second());
            if (at >= window.from() && at <= window.to()) {
                plot.note(window.share(at), mark.psi(), mark.text());
            }
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
                told.isPresent() && (replayed.about().isPresent() || to - from > WHOLE_MICROS);
        return near
                ? Window.around(told.get().startup(), to)
                : new Window(from, to, Optional.empty());
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
        Shown shown = times.shown();
        boolean near = window.start().isPresent();
        String left = near ? shown.say("plot.before", "3 s") : times.text(window.from());
        double after = (window.to() - window.from() - BEFORE_START_MICROS) / SECOND;
        String right =
                near
                        ? shown.say("plot.after", String.format(Locale.ROOT, "%.0f s", after))
                        : times.text(window.to());
        int gap = Math.max(1, characters - left.length() - right.length());
        return " ".repeat(8) + left + " ".repeat(gap) + right;
    }
}
