package leat.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.MissingNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import leat.measure.Figure;

/**
 * The JSON Schema of a {@link Published} record: which fields there are and of which type follows
 * from the record, what they mean and within which bounds they lie is taken from the schema that is
 * there, by the same path.
 */
final class SchemaMaker {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    /** What a person has written into a schema, beside what a field means. */
    private static final List<String> BOUNDS =
            List.of(
                    "minProperties",
                    "minimum",
                    "exclusiveMinimum",
                    "maximum",
                    "minItems",
                    "maxItems",
                    "minLength",
                    "pattern",
                    "format");

    private final JsonNode former;

    private SchemaMaker(JsonNode former) {
        this.former = former;
    }

    static ObjectNode make(Class<?> published, JsonNode former) {
        SchemaMaker maker = new SchemaMaker(former);
        ObjectNode schema = NODES.objectNode();
        for (String head : List.of("$schema", "$id", "title", "description")) {
            schema.set(head, former.get(head));
        }
        schema.setAll(maker.record(published, former));
        if (former.at("/$defs/time").isObject()) {
            schema.set("$defs", NODES.objectNode().set("time", former.at("/$defs/time")));
        }
        return schema;
    }

    private ObjectNode record(Class<?> record, JsonNode was) {
        ObjectNode schema = NODES.objectNode();
        schema.put("type", "object");
        ArrayNode required = schema.putArray("required");
        ObjectNode properties = schema.putObject("properties");
        Published published = record.getAnnotation(Published.class);
        if (published != null) {
            required.add("schema");
            properties.set(
                    "schema",
                    explained(was.at("/properties/schema")).put("const", published.value()));
        }
        boolean measures = fields(record, was, required, properties);
        if (measures) {
            ObjectNode patterns = schema.putObject("patternProperties");
            for (String end : List.of("_absent$", "_uncertainty$")) {
                ObjectNode pattern = explained(was.path("patternProperties").path(end));
                pattern.put("type", end.startsWith("_a") ? "string" : "number");
                patterns.set(end, bounded(pattern, was.path("patternProperties").path(end)));
            }
        }
        return schema;
    }

    private boolean fields(
            Class<?> record, JsonNode was, ArrayNode required, ObjectNode properties) {
        boolean measures = false;
        for (RecordComponent component : record.getRecordComponents()) {
            Type type = component.getGenericType();
            if (component.isAnnotationPresent(Inline.class)) {
                if (component.getType().isRecord()) {
                    measures |= fields(component.getType(), was, required, properties);
                } else {
                    inlineFigures(was, (Class<?>) argument(type, 0), required, properties);
                    measures = true;
                }
                continue;
            }
            String name = Document.name(component);
            measures |= type == Figure.class;
            boolean sometimes = component.isAnnotationPresent(IfThere.class);
            if (!sometimes) {
                required.add(name);
            }
            properties.set(
                    name,
                    type(
                            sometimes ? present(type) : type,
                            Document.isTime(component),
                            was.path("properties").path(name)));
        }
        return measures;
    }

    /** Of a map of figures only those are always there that the schema already promises. */
    private static void inlineFigures(
            JsonNode was, Class<?> keys, ArrayNode required, ObjectNode properties) {
        for (Object constant : keys.getEnumConstants()) {
            String name = Words.of((Enum<?>) constant, '_');
            ObjectNode property = explained(was.path("properties").path(name));
            property.putArray("type").add("number").add("null");
            properties.set(name, property);
            was.path("required").forEach(field -> addIf(field, name, required));
        }
    }

    private static void addIf(JsonNode field, String name, ArrayNode required) {
        if (field.asText().equals(name)) {
            required.add(name);
        }
    }

    private ObjectNode type(Type type, boolean time, JsonNode before) {
        JsonNode was = resolved(before);
        ObjectNode schema = explained(before);
        if (raw(type) == List.class) {
            schema.put("type", "array");
            schema.set("items", type(argument(type, 0), time, was.path("items")));
        } else if (time) {
            schema.setAll(time(type == OptionalLong.class));
        } else if (raw(type) == Optional.class && raw(argument(type, 0)).isRecord()) {
            ArrayNode either = schema.putArray("anyOf");
            either.addObject().put("type", "null");
            JsonNode object = objectBranch(was);
            either.add(explained(object).setAll(record(raw(argument(type, 0)), object)));
        } else if (raw(type) == Optional.class && raw(argument(type, 0)).isEnum()) {
            words(schema, raw(argument(type, 0))).addNull();
        } else if (raw(type) == Optional.class) {
            schema.putArray("type").add("string").add("null");
        } else if (type == OptionalDouble.class || type == Figure.class) {
            schema.putArray("type").add("number").add("null");
        } else if (raw(type) == Map.class) {
            schema.put("type", "object");
            map(schema, type, was);
        } else if (raw(type).isRecord()) {
            schema.setAll(record(raw(type), was));
        } else if (raw(type).isEnum()) {
            words(schema, raw(type));
        } else {
            schema.put("type", plain(raw(type)));
        }
        return bounded(schema, before);
    }

    private static ArrayNode words(ObjectNode schema, Class<?> constants) {
        ArrayNode words = schema.putArray("enum");
        for (Object constant : constants.getEnumConstants()) {
            words.add(Words.of((Enum<?>) constant, '_'));
        }
        return words;
    }

    /** Where the schema told each key before, it tells each again; else any key may stand. */
    private void map(ObjectNode schema, Type type, JsonNode was) {
        Type value = argument(type, 1);
        if (!was.has("properties")) {
            schema.set(
                    "additionalProperties", type(value, false, was.path("additionalProperties")));
            return;
        }
        if (was.has("required")) {
            schema.set("required", was.get("required"));
        }
        ObjectNode properties = schema.putObject("properties");
        for (Object constant : raw(argument(type, 0)).getEnumConstants()) {
            String key = Words.of((Enum<?>) constant, '_');
            properties.set(key, type(value, false, was.get("properties").path(key)));
        }
    }

    private static ObjectNode time(boolean optional) {
        ObjectNode time = NODES.objectNode().put("$ref", "#/$defs/time");
        if (!optional) {
            return time;
        }
        ObjectNode either = NODES.objectNode();
        either.putArray("anyOf").add(time).addObject().put("type", "null");
        return either;
    }

    private static String plain(Class<?> type) {
        if (type == String.class) {
            return "string";
        }
        if (type == boolean.class) {
            return "boolean";
        }
        return type == double.class || type == Double.class ? "number" : "integer";
    }

    private static ObjectNode explained(JsonNode was) {
        ObjectNode schema = NODES.objectNode();
        if (was.has("description")) {
            schema.set("description", was.get("description"));
        }
        return schema;
    }

    private static ObjectNode bounded(ObjectNode schema, JsonNode was) {
        for (String word : BOUNDS) {
            if (was.has(word)) {
                schema.set(word, was.get(word));
            }
        }
        return schema;
    }

    private JsonNode resolved(JsonNode was) {
        return was.has("$ref") ? former.at(was.get("$ref").asText().substring(1)) : was;
    }

    private JsonNode objectBranch(JsonNode was) {
        for (JsonNode branch : was.path("anyOf")) {
            JsonNode one = resolved(branch);
            if (one.has("properties")) {
                return one;
            }
        }
        return MissingNode.getInstance();
    }

    /** What an optional holds. */
    private static Type present(Type optional) {
        if (optional == OptionalDouble.class) {
            return double.class;
        }
        return optional == OptionalLong.class ? long.class : argument(optional, 0);
    }

    private static Type argument(Type type, int place) {
        return ((ParameterizedType) type).getActualTypeArguments()[place];
    }

    private static Class<?> raw(Type type) {
        return type instanceof ParameterizedType generic
                ? (Class<?>) generic.getRawType()
                : (Class<?>) type;
    }
}
