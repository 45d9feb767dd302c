package leat.page;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * Writes the text form of OpenMetrics 1.0: families with their samples together, each with type,
 * unit and help, and {@code # EOF} at the end. Thread-confined.
 */
final class OpenMetrics {

    static final String TYPE = "application/openmetrics-text; version=1.0.0; charset=utf-8";

    private final StringBuilder text = new StringBuilder();
    private String name = "";
    private boolean counts;

    /** Begins a number that goes up and down. */
    OpenMetrics gauge(String family, String unit, String help) {
        return family(family, "gauge", unit, help);
    }

    /** Begins a number that only grows; {@code _total} is added to the name of its samples. */
    OpenMetrics counter(String family, String help) {
        return family(family, "counter", "", help);
    }

    /** Begins a choice of which one is true; the choice is a label of the family's own name. */
    OpenMetrics stateset(String family, String help) {
        return family(family, "stateset", "", help);
    }

    /** Begins what never changes while leat runs; {@code _info} is added. */
    OpenMetrics info(String family, String help) {
        return family(family, "info", "", help);
    }

    private OpenMetrics family(String family, String type, String unit, String help) {
        if (!unit.isEmpty() && !family.endsWith("_" + unit)) {
            throw new IllegalArgumentException(family + " does not end in its unit " + unit);
        }
        counts = type.equals("counter");
        name = family + (type.equals("info") ? "_info" : counts ? "_total" : "");
        text.append("# TYPE ").append(family).append(' ').append(type).append('\n');
        if (!unit.isEmpty()) {
            text.append("# UNIT ").append(family).append(' ').append(unit).append('\n');
        }
        text.append("# HELP ").append(family).append(' ').append(escaped(help)).append('\n');
        return this;
    }

    /**
     * One sample of the family that was begun.
     *
     * @param labels names and values in turn
     */
    OpenMetrics sample(double value, String... labels) {
        text.append(name);
        Map<String, String> pairs = new LinkedHashMap<>();
        for (int i = 0; i < labels.length; i += 2) {
            pairs.put(labels[i], labels[i + 1]);
        }
        if (!pairs.isEmpty()) {
            text.append('{');
            String between = "";
            for (Map.Entry<String, String> label : pairs.entrySet()) {
                text.append(between).append(label.getKey()).append("=\"");
                text.append(escaped(label.getValue())).append('"');
                between = ",";
            }
            text.append('}');
        }
        text.append(' ').append(number(value)).append('\n');
        return this;
    }

    private static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? String.format(Locale.ROOT, "%.0f", value)
                : Double.toString(value);
    }

    private static String escaped(String text) {
        return text.replace("\\", "\\\\").replace("\n", "\\n").replace("\"", "\\\"");
    }

    /** The whole text. */
    String end() {
        return text + "# EOF\n";
    }
}
