package leat.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import leat.measure.Figure;
import leat.words.Language;
import leat.words.Phrases;

/**
 * Records as documents for programs outside. A component is a field of the same name in lower case
 * with underscores; a time is ISO 8601 in UTC and loses its {@code Micros}; seconds end in {@code
 * _s}; what is optional is null when it is not there, or left out where {@link IfThere} says so. A
 * figure is a number or null, with {@code _uncertainty} and {@code _absent} in fields of their own
 * behind its name. Of a {@link Published} record the name of its schema comes first.
 */
public final class Document {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final String MICROS = "Micros";

    /** Programs read English, whatever the language of the site. */
    private static final Phrases ENGLISH = Phrases.in(Language.ENGLISH);

    private Document() {}

    public static ObjectNode of(Record record) {
        ObjectNode json = NODES.objectNode();
        Published published = record.getClass().getAnnotation(Published.class);
        if (published != null) {
            json.put("schema", published.value());
        }
        for (RecordComponent component : record.getClass().getRecordComponents()) {
            put(json, component, valueOf(record, component));
        }
        return json;
    }

    public static String time(long micros) {
        return Instant.EPOCH.plus(micros, ChronoUnit.MICROS).toString();
    }

    /** The name of a component in a document. */
    static String name(RecordComponent component) {
        Called called = component.getAnnotation(Called.class);
        if (called != null) {
            return called.value();
        }
        String name = component.getName().replaceAll(MICROS + "$", "");
        return FieldNames.underscored(name).replaceAll("_seconds$", "_s");
    }

    static boolean isTime(RecordComponent component) {
        return component.getName().endsWith(MICROS);
    }

    private static Object valueOf(Record record, RecordComponent component) {
        try {
            var accessor = component.getAccessor();
            accessor.setAccessible(true);
            return accessor.invoke(record);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(component + " cannot be read", e);
        }
    }

    private static void put(ObjectNode json, RecordComponent component, Object value) {
        if (value instanceof Figure figure) {
            put(json, name(component), figure);
        } else if (component.isAnnotationPresent(Inline.class)) {
            inline(json, value);
        } else {
            JsonNode node = isTime(component) ? times(value) : node(value);
            if (!node.isNull() || !component.isAnnotationPresent(IfThere.class)) {
                json.set(name(component), node);
            }
        }
    }

    private static void inline(ObjectNode json, Object value) {
        if (value instanceof Record inner) {
            json.setAll(of(inner));
        } else {
            ((Map<?, ?>) value)
                    .forEach(
                            (key, figure) ->
                                    put(json, Words.of((Enum<?>) key, '_'), (Figure) figure));
        }
    }

    /** A figure with its uncertainty, or null and why. */
    public static void put(ObjectNode json, String name, Figure figure) {
        if (figure.isPresent()) {
            json.put(name, figure.get());
            figure.uncertainty().ifPresent(doubt -> json.put(name + "_uncertainty", doubt));
        } else {
            json.putNull(name);
            json.put(name + "_absent", ENGLISH.say("absence." + figure.absentBecause().key()));
        }
    }

    private static JsonNode times(Object value) {
        if (value instanceof OptionalLong optional) {
            return optional.isPresent() ? times(optional.getAsLong()) : NODES.nullNode();
        }
        if (value instanceof Iterable<?> all) {
            ArrayNode list = NODES.arrayNode();
            all.forEach(each -> list.add(times(each)));
            return list;
        }
        return NODES.textNode(time((Long) value));
    }

    private static JsonNode node(Object value) {
        if (value instanceof String text) {
            return NODES.textNode(text);
        }
        if (value instanceof Boolean flag) {
            return NODES.booleanNode(flag);
        }
        if (value instanceof Double number) {
            return NODES.numberNode(number);
        }
        if (value instanceof Long || value instanceof Integer) {
            return NODES.numberNode(((Number) value).longValue());
        }
        if (value instanceof Enum<?> constant) {
            return NODES.textNode(Words.of(constant, '_'));
        }
        if (value instanceof Record inner) {
            return of(inner);
        }
        if (value instanceof Optional<?> optional) {
            return optional.map(Document::node).orElse(NODES.nullNode());
        }
        if (value instanceof OptionalDouble optional) {
            return optional.isPresent() ? node(optional.getAsDouble()) : NODES.nullNode();
        }
        return value instanceof Map<?, ?> map ? object(map) : list((Iterable<?>) value);
    }

    private static JsonNode object(Map<?, ?> map) {
        ObjectNode json = NODES.objectNode();
        map.forEach(
                (key, value) ->
                        json.set(
                                key instanceof Enum<?> constant
                                        ? Words.of(constant, '_')
                                        : (String) key,
                                node(value)));
        return json;
    }

    private static JsonNode list(Iterable<?> all) {
        ArrayNode list = NODES.arrayNode();
        all.forEach(each -> list.add(node(each)));
        return list;
    }
}
