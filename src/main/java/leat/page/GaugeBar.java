package leat.page;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.live.LimitNow;
import leat.report.Marks;
import leat.rule.Finding.Sense;
import leat.rule.Grade;

/**
 * A gauge as a bar with its limits as marks across it. A mark points to the side that is not
 * allowed, so that it can be read without its colour. Whatever it shows stands beside it in words.
 */
final class GaugeBar {

    private static final double WIDTH = 240;
    private static final double TOP = 5;
    private static final double HEIGHT = 11;
    private static final double POINT = 5;

    /** Room above what is to be seen. */
    private static final double MORE = 1.15;

    private GaugeBar() {}

    /**
     * @param fullScale the least that it reaches up to
     */
    static String draw(OptionalDouble value, List<LimitNow> limits, double fullScale) {
        double end = fullScale;
        for (LimitNow limit : limits) {
            end = Math.max(end, MORE * limit.value());
        }
        end = Math.max(end, MORE * value.orElse(0));
        StringBuilder out = new StringBuilder(600);
        out.append(
                "<svg class=\"bar\" viewBox=\"0 0 240 20\" aria-hidden=\"true\" focusable=\"false\">");
        rectangle(out, "track", 0, WIDTH);
        double shown = Math.max(0, WIDTH * value.orElse(0) / end);
        rectangle(
                out,
                "fill" + worst(value, limits).map(g -> " " + Marks.type(g)).orElse(""),
                0,
                shown);
        for (LimitNow limit : limits) {
            mark(out, limit, WIDTH * limit.value() / end);
        }
        return out.append("</svg>").toString();
    }

    private static void rectangle(StringBuilder out, String type, double from, double to) {
        out.append("<rect class=\"").append(type).append("\" x=\"").append(Svg.number(from));
        out.append("\" y=\"").append(Svg.number(TOP)).append("\" width=\"");
        out.append(Svg.number(to - from)).append("\" height=\"").append(Svg.number(HEIGHT));
        out.append("\" rx=\"2\"/>");
    }

    /** A line across with a flag towards the wrong side. */
    private static void mark(StringBuilder out, LimitNow limit, double x) {
        double flag = limit.sense() == Sense.AT_LEAST ? x - POINT : x + POINT;
        out.append("<path class=\"mark ").append(Marks.type(limit.grade())).append("\" d=\"M");
        out.append(Svg.number(x)).append(" 19V1L").append(Svg.number(flag)).append(" 3.5L");
        out.append(Svg.number(x)).append(" 6\"/>");
    }

    /** The gravest limit on whose wrong side a value is. */
    static Optional<Grade> worst(OptionalDouble value, List<LimitNow> limits) {
        return limits.stream()
                .filter(limit -> value.isPresent() && limit.isBrokenBy(value.getAsDouble()))
                .map(LimitNow::grade)
                .max(Grade::compareTo);
    }
}
