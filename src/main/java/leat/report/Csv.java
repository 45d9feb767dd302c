package leat.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Flat JSON objects as CSV of RFC 4180, for spreadsheets: absent numbers are empty cells. Reasons,
 * doubts and lists are left to JSON, so that the columns are the same whatever could be measured.
 */
public final class Csv {

    private static final String REASON = "_absent";
    private static final String DOUBT = "_uncertainty";
    private static final String LINE_END = "\r\n";

    private Csv() {}

    /**
     * A header of all names but those of reasons and doubts, then a line for each object; nothing
     * for none.
     */
    public static String of(List<ObjectNode> objects) {
        Set<String> names = new LinkedHashSet<>();
        objects.forEach(object -> object.fieldNames().forEachRemaining(names::add));
        names.removeIf(name -> name.endsWith(REASON) || name.endsWith(DOUBT));
        objects.forEach(object -> names.removeIf(name -> object.path(name).isContainerNode()));
        StringBuilder text = new StringBuilder();
        if (!names.isEmpty()) {
            text.append(String.join(",", names)).append(LINE_END);
        }
        for (ObjectNode object : objects) {
            List<String> cells = new ArrayList<>();
            names.forEach(name -> cells.add(cell(object.path(name))));
            text.append(String.join(",", cells)).append(LINE_END);
        }
        return text.toString();
    }

    private static String cell(JsonNode value) {
        String text = value.isNull() ? "" : value.asText();
        boolean plain = text.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
        return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
    }
}
