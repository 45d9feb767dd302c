package leat.page;

import java.util.List;
import java.util.stream.Stream;
import leat.live.StartCurve;
import leat.report.Html;
import leat.report.Shown;

/** A start as a small drawing: boosted pressure as a line, inlet pressure dotted. */
final class CurveDrawing {

    private static final double LEFT = 4;
    private static final double RIGHT = 296;
    private static final double TOP = 14;
    private static final double BOTTOM = 84;
    private static final double SECOND = 1e6;
    private static final double SHORTEST_SECONDS = 8;

    private final StartCurve curve;
    private final Shown shown;
    private final double seconds;
    private final double highest;

    /**
     * @param setPsi the level that the machine is set to; always in the drawing
     */
    private CurveDrawing(StartCurve curve, Shown shown, double setPsi) {
        this.curve = curve;
        this.shown = shown;
        seconds =
                Math.max(
                        SHORTEST_SECONDS,
                        all().mapToDouble(p -> (p.atMicros() - curve.startedMicros()) / SECOND)
                                .max()
                                .orElse(0));
        highest = 1.1 * Math.max(setPsi, all().mapToDouble(StartCurve.Point::psi).max().orElse(0));
    }

    private Stream<StartCurve.Point> all() {
        return Stream.concat(curve.boosted().stream(), curve.inlet().stream());
    }

    static String of(StartCurve curve, Shown shown, double setPsi) {
        return new CurveDrawing(curve, shown, setPsi).draw(setPsi);
    }

    private String draw(double setPsi) {
        StringBuilder out = new StringBuilder(4_000);
        out.append("<svg class=\"curve\" viewBox=\"0 0 300 100\" role=\"img\" aria-label=\"");
        out.append(Html.escaped(shown.say("status.curve", shown.pressure(peak()), whole(seconds))));
        out.append("\">");
        line(out, "set", LEFT, y(setPsi), RIGHT, y(setPsi));
        line(out, "axis", LEFT, BOTTOM, RIGHT, BOTTOM);
        line(out, "axis", x(0), TOP, x(0), BOTTOM);
        text(out, RIGHT, y(setPsi) - 3, "end", shown.pressure(setPsi));
        text(out, x(0), 97, "middle", "0 s");
        text(out, RIGHT, 97, "end", whole(seconds) + " s");
        points(out, "inlet", curve.inlet());
        points(out, "boosted", curve.boosted());
        return out.append("</svg>").toString();
    }

    private double peak() {
        return curve.boosted().stream().mapToDouble(StartCurve.Point::psi).max().orElse(0);
    }

    private String whole(double value) {
        return shown.number(Math.rint(value));
    }

    private double x(double second) {
        return LEFT + (RIGHT - LEFT) * (second + 1) / (seconds + 1);
    }

    private double y(double psi) {
        return BOTTOM - (BOTTOM - TOP) * Math.max(0, psi) / highest;
    }

    private static void line(
            StringBuilder out, String type, double x1, double y1, double x2, double y2) {
        out.append("<path class=\"").append(type).append("\" d=\"M").append(Svg.number(x1));
        out.append(' ').append(Svg.number(y1)).append('L').append(Svg.number(x2)).append(' ');
        out.append(Svg.number(y2)).append("\"/>");
    }

    private static void text(StringBuilder out, double x, double y, String anchor, String words) {
        out.append("<text x=\"").append(Svg.number(x)).append("\" y=\"").append(Svg.number(y));
        out.append("\" text-anchor=\"").append(anchor).append("\">");
        out.append(Html.escaped(words)).append("</text>");
    }

    private void points(StringBuilder out, String type, List<StartCurve.Point> points) {
        out.append("<polyline class=\"").append(type).append("\" points=\"");
        for (StartCurve.Point point : points) {
            double second = (point.atMicros() - curve.startedMicros()) / SECOND;
            out.append(Svg.number(x(second))).append(',').append(Svg.number(y(point.psi())));
            out.append(' ');
        }
        out.append("\"/>");
    }
}
