package leat.report;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import leat.rule.Limit;
import leat.rule.Limits;

/**
 * The numbers of a startup for a person, beside what they should be. They are taken from the fields
 * that {@link Json#startup} writes, so that both tell the same. Immutable.
 *
 * @param shown how pressures are shown
 * @param limits what the startup was judged by
 */
public record StartupRows(Shown shown, Limits limits) {

    /** How a field's number is shown. */
    private enum Kind {
        PRESSURE,
        SECONDS,
        RATIO,
        PERCENT
    }

    private record Line(String field, String name, Kind kind) {}

    private static final List<Line> LINES =
            List.of(
                    new Line("base_psi", "boosted before the start", Kind.PRESSURE),
                    new Line("top_psi", "boosted reached", Kind.PRESSURE),
                    new Line("inlet_psi", "inlet while running", Kind.PRESSURE),
                    new Line("ratio", "boosted over inlet", Kind.RATIO),
                    new Line("rise_s", "rise 10-90 % from rest", Kind.SECONDS),
                    new Line("rise_from_inlet_s", "rise 10-90 % from inlet", Kind.SECONDS),
                    new Line("dead_time_s", "start to first movement", Kind.SECONDS),
                    new Line("start_to_90_s", "start to 90 %", Kind.SECONDS),
                    new Line("time_to_double_s", "start to twice the inlet", Kind.SECONDS),
                    new Line("overshoot_pct", "overshoot", Kind.PERCENT));

    public StartupRows {
        requireNonNull(shown, "shown");
        requireNonNull(limits, "limits");
    }

    /**
     * @param startup as {@link Json#startup} writes it
     */
    public TextTable table(ObjectNode startup) {
        TextTable table = new TextTable("", "measured", "should be");
        Map<String, String> wanted = wanted();
        for (Line line : LINES) {
            table.row(line.name(), measured(startup, line), wanted.getOrDefault(line.field(), ""));
        }
        return table;
    }

    private String measured(ObjectNode startup, Line line) {
        if (!startup.path(line.field()).isNumber()) {
            return "- (" + startup.path(line.field() + "_absent").asText("not measured") + ")";
        }
        double value = startup.get(line.field()).doubleValue();
        return switch (line.kind()) {
            case PRESSURE -> shown.pressure(value);
            case SECONDS -> number("%.2f s", value);
            case RATIO -> number("%.2f", value);
            case PERCENT -> number("%.0f %%", value);
        };
    }

    private Map<String, String> wanted() {
        return Map.of(
                "top_psi",
                "at least "
                        + shown.pressure(limits.get(Limit.LEVEL_ADVISORY))
                        + ", at most "
                        + shown.pressure(limits.get(Limit.LEVEL_HIGH_ADVISORY)),
                "inlet_psi",
                "at least " + shown.pressure(limits.get(Limit.INLET_ADVISORY)),
                "ratio",
                number("at least %.2f", limits.get(Limit.RATIO_WARNING))
                        + ", or boosted at least "
                        + shown.pressure(limits.levelReachedPsi()),
                "rise_s",
                number("at most %.1f s", limits.get(Limit.RISE_ADVISORY))
                        + number(" (very slow over %.1f s)", limits.get(Limit.RISE_WARNING)),
                "start_to_90_s",
                number("within %.0f s", limits.get(Limit.RISE_CRITICAL)));
    }

    private static String number(String format, double value) {
        return String.format(Locale.ROOT, format, value);
    }
}
