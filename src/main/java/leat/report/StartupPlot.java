package leat.report;

import java.util.List;
import java.util.Locale;
import leat.measure.Startup;
import leat.rule.Limit;
import leat.signal.PressureUnit;
import leat.words.Lines;

/**
 * Draws a startup as SVG: both pressures, limits, the reference levels of the rise with their
 * crossings, another startup behind it. Colours come from the page's style sheet.
 */
final class StartupPlot {

    private static final int WIDTH = 760;
    private static final int HEIGHT = 400;
    private static final int LEFT = 48;
    private static final int RIGHT = 104;
    private static final int LABEL_HEIGHT = 15;
    private static final int TOP = 16;
    private static final int BOTTOM = 40;

    /** In a line of words beside a point. */
    private static final int MARK_LETTERS = 26;

    private static final int TIME_MARKS = 10;
    private static final int PRESSURE_MARKS = 7;
    private static final double HEADROOM = 1.08;

    /** By how much words stand below what they name, pixels. */
    private static final double NAME_DOWN = 16;

    private static final double LIMIT_DOWN = 4;
    private static final List<Limit> NAMED =
            List.of(Limit.LEVEL_HIGH_ADVISORY, Limit.LEVEL_SET, Limit.LEVEL_WARNING);

    private final StartupView view;
    private final Shown shown;
    private final PressureUnit unit;
    private final Axis time;
    private final Axis pressure;
    private final List<CurveMark> marks;
    private final MarkPlaces places =
            new MarkPlaces(new MarkPlaces.Box(LEFT, TOP, WIDTH - RIGHT, HEIGHT - BOTTOM));
    private final StringBuilder svg = new StringBuilder();

    /** Last point of the line that is drawn; empty before its first. */
    private double[] last = new double[0];

    /**
     * @param marks what is to be pointed at in the curves
     */
    StartupPlot(StartupView view, Shown shown, List<CurveMark> marks) {
        this.view = view;
        this.shown = shown;
        unit = shown.unit();
        this.marks = List.copyOf(marks);
        time = new Axis(firstSecond(view), lastSecond(view), LEFT, WIDTH - RIGHT);
        pressure = new Axis(lowest(view), highest(view), HEIGHT - BOTTOM, TOP);
    }

    private static double firstSecond(StartupView view) {
        return view.boosted().size() == 0 ? -1 : Math.min(-1, view.boosted().second(0));
    }

    private static double lastSecond(StartupView view) {
        int size = view.boosted().size();
        return size == 0 ? 15 : Math.max(1, view.boosted().second(size - 1));
    }

    private static double lowest(StartupView view) {
        return Math.min(0, Math.min(extreme(view.boosted(), -1), extreme(view.inlet(), -1)));
    }

    private static double highest(StartupView view) {
        double set = view.limits().get(Limit.LEVEL_HIGH_ADVISORY);
        return HEADROOM
                * Math.max(set, Math.max(extreme(view.boosted(), 1), extreme(view.inlet(), 1)));
    }

    private static double extreme(Trace trace, int sign) {
        double extreme = 0;
        for (int i = 0; i < trace.size(); i++) {
            extreme = sign * Math.max(sign * extreme, sign * trace.psi(i));
        }
        return extreme;
    }

    String draw() {
        svg.append(
                format(
                        "<svg viewBox=\"0 0 %d %d\" role=\"img\" aria-label=\"%s\">%n",
                        WIDTH,
                        HEIGHT,
                        Html.escaped(
                                shown.say(
                                        view.inlet().size() == 0
                                                ? "page.plot-boosted"
                                                : "page.plot-both"))));
        axes();
        limits();
        references();
        view.typical().ifPresent(typical -> trace(typical.boosted(), "typical"));
        view.other().ifPresent(other -> trace(other.boosted(), "other"));
        trace(view.inlet(), "inlet");
        trace(view.boosted(), "boosted");
        labels();
        marks.forEach(this::mark);
        return svg.append("</svg>\n").toString();
    }

    private void axes() {
        double step = time.step(TIME_MARKS);
        for (double t = Math.ceil(time.from() / step) * step; t <= time.to(); t += step) {
            line(time.pixel(t), TOP, time.pixel(t), HEIGHT - BOTTOM, "grid");
            text(time.pixel(t), HEIGHT - BOTTOM + 16, "middle", "mark", number(t));
        }
        Axis scale =
                new Axis(
                        unit.fromPsi(pressure.from()),
                        unit.fromPsi(pressure.to()),
                        pressure.pixelFrom(),
                        pressure.pixelTo());
        double rise = scale.step(PRESSURE_MARKS);
        for (double p = Math.ceil(scale.from() / rise) * rise; p <= scale.to(); p += rise) {
            line(LEFT, scale.pixel(p), WIDTH - RIGHT, scale.pixel(p), "grid");
            text(LEFT - 6, scale.pixel(p) + 4, "end", "mark", number(p));
        }
        text(LEFT - 6, TOP - 4, "end", "mark", unit.symbol());
        text((LEFT + WIDTH - RIGHT) / 2.0, HEIGHT - 6, "middle", "mark", shown.say("page.seconds"));
        line(time.pixel(0), TOP, time.pixel(0), HEIGHT - BOTTOM, "start");
    }

    private void limits() {
        limit(Limit.LEVEL_HIGH_ADVISORY, shown.say("page.no-need"));
        limit(Limit.LEVEL_SET, shown.say("page.set"));
        limit(Limit.LEVEL_WARNING, shown.say("page.too-low"));
    }

    private void limit(Limit limit, String words) {
        double y = pressure.pixel(view.limits().get(limit));
        line(LEFT, y, WIDTH - RIGHT, y, "limit");
        text(WIDTH - RIGHT + 4, y + LIMIT_DOWN, "start", "limit-text", words);
    }

    /** The 10, 50 and 90 % levels, and the crossings of 10 and 90 %. */
    private void references() {
        Startup startup = view.startup();
        if (!startup.basePsi().isPresent() || !startup.topPsi().isPresent()) {
            return;
        }
        double base = startup.basePsi().get();
        double amplitude = startup.topPsi().get() - base;
        for (int percent : new int[] {10, 50, 90}) {
            double y = pressure.pixel(base + percent / 100.0 * amplitude);
            line(LEFT, y, WIDTH - RIGHT, y, "reference");
            text(LEFT + 4, y - 3, "start", "reference-text", percent + " %");
            places.words(new MarkPlaces.Box(LEFT, y - 18, LEFT + 44, y + 2));
        }
        if (startup.startTo90Seconds().isPresent() && startup.riseSeconds().isPresent()) {
            double t90 = startup.startTo90Seconds().get();
            dot(t90, base + 0.9 * amplitude);
            dot(t90 - startup.riseSeconds().get(), base + 0.1 * amplitude);
        }
    }

    /**
     * Names the lines at their ends, so that no legend has to be looked up; where they end close
     * together, as behind a booster that does not turn, one name above the other.
     */
    private void labels() {
        double boosted = end(view.boosted());
        double inlet = end(view.inlet());
        double apart = Math.max(0, LABEL_HEIGHT - Math.abs(boosted - inlet)) / 2;
        double down = boosted <= inlet ? -apart : apart;
        double upper = besideLimits(boosted + down);
        double lower = besideLimits(inlet - down);
        boolean isClear = Math.abs(upper - lower) >= LABEL_HEIGHT;
        label(
                view.boosted(),
                isClear ? upper : boosted + down,
                "boosted-text",
                shown.say("channel.boosted"));
        label(
                view.inlet(),
                isClear ? lower : inlet - down,
                "inlet-text",
                shown.say("channel.inlet"));
    }

    /** The nearest place at which a name covers none of a limit. */
    private double besideLimits(double y) {
        double clear = y;
        for (Limit limit : NAMED) {
            double away = y + NAME_DOWN - (pressure.pixel(view.limits().get(limit)) + LIMIT_DOWN);
            if (Math.abs(away) < LABEL_HEIGHT) {
                clear = y + Math.copySign(LABEL_HEIGHT, away) - away;
            }
        }
        return clear;
    }

    /** Far from every other where there is no line. */
    private double end(Trace trace) {
        return trace.size() == 0 ? -HEIGHT : pressure.pixel(trace.psi(trace.size() - 1));
    }

    private void label(Trace trace, double y, String style, String words) {
        if (trace.size() > 0) {
            text(WIDTH - RIGHT + 4, y + NAME_DOWN, "start", style, words);
        }
    }

    /** A point of a curve, and words beside it in at most two lines. */
    private void mark(CurveMark mark) {
        if (mark.second() < time.from() || mark.second() > time.to()) {
            return;
        }
        double x = time.pixel(mark.second());
        double y = pressure.pixel(mark.psi());
        svg.append(format("<circle class=\"reason\" cx=\"%.1f\" cy=\"%.1f\" r=\"5\"/>%n", x, y));
        List<String> lines = new Lines(MARK_LETTERS).add("", mark.text(), "").broken();
        int letters = lines.stream().mapToInt(String::length).max().orElse(0);
        places.take(x, y, letters * MarkPlaces.LETTER, lines.size() * MarkPlaces.LINE)
                .ifPresent(box -> mark(box, lines, x, y));
    }

    private void mark(MarkPlaces.Box box, List<String> lines, double x, double y) {
        boolean isRight = box.left() > x;
        double near = isRight ? box.left() : box.right();
        double middle = (box.top() + box.bottom()) / 2;
        line(x, y, near - (isRight ? 2 : -2), middle, "reason");
        double down = box.top() + MarkPlaces.LINE * 0.75;
        for (String words : lines) {
            text(near + (isRight ? 2 : -2), down, isRight ? "start" : "end", "reason-text", words);
            down += MarkPlaces.LINE;
        }
    }

    /** At most two points a pixel: the lowest and the highest of what falls on it. */
    private void trace(Trace trace, String style) {
        StringBuilder points = new StringBuilder();
        last = new double[0];
        int i = 0;
        while (i < trace.size()) {
            long column = Math.round(time.pixel(trace.second(i)));
            int low = i;
            int high = i;
            while (i < trace.size() && Math.round(time.pixel(trace.second(i))) == column) {
                low = trace.psi(i) < trace.psi(low) ? i : low;
                high = trace.psi(i) > trace.psi(high) ? i : high;
                i++;
            }
            point(points, trace, Math.min(low, high));
            if (low != high) {
                point(points, trace, Math.max(low, high));
            }
        }
        svg.append(
                format(
                        "<polyline class=\"%s\" points=\"%s\"/>%n",
                        style, points.toString().trim()));
    }

    private void point(StringBuilder points, Trace trace, int i) {
        double second = trace.second(i);
        if (second >= time.from() && second <= time.to()) {
            double x = time.pixel(second);
            double y = pressure.pixel(trace.psi(i));
            points.append(format("%.1f,%.1f ", x, y));
            keepFree(x, y);
        }
    }

    /** Words stand beside the line from the last point to this. */
    private void keepFree(double x, double y) {
        if (last.length > 0) {
            places.line(last[0], last[1], x, y);
        }
        last = new double[] {x, y};
    }

    private void dot(double second, double psi) {
        svg.append(
                format(
                        "<circle class=\"crossing\" cx=\"%.1f\" cy=\"%.1f\" r=\"4\"/>%n",
                        time.pixel(second), pressure.pixel(psi)));
    }

    private void line(double x1, double y1, double x2, double y2, String style) {
        svg.append(
                format(
                        "<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\"/>%n",
                        style, x1, y1, x2, y2));
    }

    private void text(double x, double y, String anchor, String style, String words) {
        svg.append(
                format(
                        "<text class=\"%s\" x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">%s</text>%n",
                        style, x, y, anchor, Html.escaped(words)));
    }

    private static String number(double value) {
        double rounded = Math.round(value * 1000) / 1000.0;
        return rounded == Math.rint(rounded)
                ? Long.toString((long) rounded)
                : Double.toString(rounded);
    }

    private static String format(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
