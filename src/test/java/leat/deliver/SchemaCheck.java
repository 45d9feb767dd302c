package leat.deliver;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/** Checks JSON against the part of JSON Schema that our schema uses, and refuses any other part. */
public final class SchemaCheck {

    private static final Set<String> NOTES =
            Set.of("$schema", "$id", "$defs", "title", "description", "format");

    private final JsonNode root;
    private final List<String> problems = new ArrayList<>();

    private SchemaCheck(JsonNode root) {
        this.root = root;
    }

    /** What is wrong with {@code value}; empty when nothing is. */
    public static List<String> problems(JsonNode schema, JsonNode value) {
        SchemaCheck check = new SchemaCheck(schema);
        check.check(schema, value, "");
        return check.problems;
    }

    private void check(JsonNode schema, JsonNode value, String where) {
        for (Map.Entry<String, JsonNode> keyword : schema.properties()) {
            JsonNode says = keyword.getValue();
            switch (keyword.getKey()) {
                case "type" -> demand(isOfType(says.textValue(), value), where, keyword);
                case "const" -> demand(says.equals(value), where, keyword);
                case "enum" -> demand(contains(says, value), where, keyword);
                case "minimum" -> demand(value.doubleValue() >= says.doubleValue(), where, keyword);
                case "maximum" -> demand(value.doubleValue() <= says.doubleValue(), where, keyword);
                case "minLength" ->
                        demand(value.asText().length() >= says.intValue(), where, keyword);
                case "minItems" -> demand(value.size() >= says.intValue(), where, keyword);
                case "pattern" ->
                        demand(
                                Pattern.compile(says.textValue()).matcher(value.asText()).find(),
                                where,
                                keyword);
                case "required" ->
                        says.forEach(name -> demand(value.has(name.textValue()), where, keyword));
                case "items" -> value.forEach(item -> check(says, item, where + "/*"));
                case "properties" ->
                        says.properties()
                                .forEach(
                                        property -> {
                                            if (value.has(property.getKey())) {
                                                check(
                                                        property.getValue(),
                                                        value.get(property.getKey()),
                                                        where + "/" + property.getKey());
                                            }
                                        });
                case "$ref" -> check(root.at(says.textValue().substring(1)), value, where);
                default -> demand(NOTES.contains(keyword.getKey()), where, keyword);
            }
        }
    }

    private void demand(boolean holds, String where, Map.Entry<String, JsonNode> keyword) {
        if (!holds) {
            problems.add(where + ": " + keyword);
        }
    }

    private static boolean isOfType(String type, JsonNode value) {
        return switch (type) {
            case "object" -> value.isObject();
            case "array" -> value.isArray();
            case "string" -> value.isTextual();
            case "boolean" -> value.isBoolean();
            case "number" -> value.isNumber();
            case "integer" -> value.isIntegralNumber();
            default -> throw new IllegalArgumentException(type);
        };
    }

    private static boolean contains(JsonNode words, JsonNode value) {
        for (JsonNode word : words) {
            if (word.equals(value)) {
                return true;
            }
        }
        return false;
    }
}
