package leat.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import leat.json.Document;

/**
 * Flat documents as CSV of RFC 4180, for spreadsheets: absent numbers are empty cells. Reasons,
 * doubts and lists are left to JSON, so that the columns are the same whatever could be measured. A
 * text that a spreadsheet would take for a formula has an apostrophe in front.
 */
public final class Csv {

    private static final String REASON = "_absent";
    private static final String DOUBT = "_uncertainty";
    private static final String LINE_END = "\r\n";

    /** Spreadsheets skip blanks and controls before the sign; full-width signs count too. */
    private static final Pattern FORMULA =
            Pattern.compile("[\\s\\p{C}]*[=+@\uff1d\uff0b\uff20\uff0d-]");

    private Csv() {}

    /**
     * A header of all names but those of reasons and doubts, then a line for each; nothing for
     * none.
     */
    public static String of(List<? extends Record> records) {
        return ofObjects(records.stream().map(Document::of).toList());
    }

    static String ofObjects(List<ObjectNode> objects) {
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
        if (value.isTextual() && FORMULA.matcher(text).lookingAt()) {
            text = "'" + text;
        }
        return quoted(text);
    }

    private static String quoted(String text) {
        boolean plain = text.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
        return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
    }
}
