package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import leat.live.MachineNow;
import leat.live.StartCurve;
import leat.live.StartCurve.Point;
import leat.live.StartNow;
import leat.report.Fold;
import leat.report.Glyphs;
import leat.report.Shown;
import leat.report.Sketch;
import leat.report.TextPlot;
import leat.signal.Channel;
import leat.signal.Reading;

/**
 * The start that climbs, or else the last one: its figures, and its curve in whatever room is left.
 * Immutable.
 *
 * @param words the words
 * @param glyphs what the terminal can show
 * @param columns of the terminal
 */
record StartPicture(NowWords words, Glyphs glyphs, int columns) {

    private static final int LEAST_LINES = 4;
    private static final int MOST_LINES = 14;
    private static final int LABEL = 8;
    private static final int NAMES = 12;
    private static final int WIDE = 60;
    private static final int MOST_CHARACTERS = 100;
    private static final long SECOND = 1_000_000;
    private static final long BEFORE_MICROS = SECOND;
    private static final long SHORTEST_SECONDS = 8;

    StartPicture {
        requireNonNull(words, "words");
        requireNonNull(glyphs, "glyphs");
    }

    /** What is said of it. */
    List<Row> head(MachineNow machine) {
        if (machine.climb().isPresent()) {
            long started = machine.climb().get().startedMicros();
            return folded(
                    Ink.STRONG,
                    shown().say(
                                    "live.climbs",
                                    words.clock(started),
                                    words.span(words.nowMicros() - started)));
        }
        return machine.lastStart()
                .map(start -> folded(Ink.PLAIN, words.start(start.startup())))
                .orElseGet(() -> folded(Ink.FAINT, shown().say("live.no-start")));
    }

    /**
     * @param lines so many there are; nothing is drawn where they are too few
     */
    List<Row> curve(MachineNow machine, int lines) {
        int height = Math.min(MOST_LINES, lines - 1);
        if (height < LEAST_LINES) {
            return List.of();
        }
        return machine.climb()
                .or(() -> machine.lastStart().map(StartNow::curve))
                .map(curve -> curve(curve, machine.setPsi(), height))
                .orElse(List.of());
    }

    private List<Row> curve(StartCurve curve, double setPsi, int height) {
        if (curve.isEmpty()) {
            return folded(Ink.FAINT, shown().say("live.no-curve"));
        }
        int characters = Math.min(MOST_CHARACTERS, columns - LABEL - (columns < WIDE ? 0 : NAMES));
        long seconds = seconds(curve);
        long from = curve.startedMicros() - BEFORE_MICROS;
        long to = curve.startedMicros() + seconds * SECOND;
        int dots = TextPlot.columns(glyphs, characters);
        List<String> plot =
                new TextPlot(
                                sketch(Channel.INLET, curve.inlet(), from, to, dots),
                                sketch(Channel.BOOSTED, curve.boosted(), from, to, dots),
                                glyphs,
                                shown().unit())
                        .high(height)
                        .limit(setPsi, columns < WIDE ? "" : shown().say("page.set"))
                        .lines();
        List<Row> rows = new ArrayList<>(plot.stream().map(Row::of).toList());
        rows.add(Row.of(axis(seconds, characters)));
        return rows;
    }

    /** Whole seconds from the start on that hold all of it. */
    private static long seconds(StartCurve curve) {
        List<Point> points = curve.boosted().isEmpty() ? curve.inlet() : curve.boosted();
        long last = points.get(points.size() - 1).atMicros() - curve.startedMicros();
        return Math.max(SHORTEST_SECONDS, (last + SECOND - 1) / SECOND);
    }

    private static Sketch sketch(
            Channel channel, List<Point> points, long from, long to, int columns) {
        Sketch sketch = new Sketch(from, to, columns);
        points.forEach(p -> sketch.add(Reading.good(channel, p.atMicros(), p.psi())));
        return sketch;
    }

    /** The seconds since the start, below the curve. */
    private String axis(long seconds, int characters) {
        StringBuilder axis = new StringBuilder(" ".repeat(LABEL + characters));
        long step = seconds <= 10 ? 2 : seconds <= 30 ? 5 : 10;
        for (long second = 0; second <= seconds; second += step) {
            String mark = second == 0 ? shown().say("live.seconds", "0") : Long.toString(second);
            int at = LABEL + (int) ((second + 1) * characters / (seconds + 1));
            int begin = Math.min(at, axis.length() - mark.length());
            axis.replace(begin, begin + mark.length(), mark);
        }
        return axis.toString().stripTrailing();
    }

    private List<Row> folded(Ink ink, String text) {
        return Fold.of(columns, text).lines().map(line -> Row.of(ink, line)).toList();
    }

    private Shown shown() {
        return words.shown();
    }
}
