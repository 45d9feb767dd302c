package leat.config;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The JSON Schema (draft 2020-12) of {@code site.yaml} for editors, made from the declarations that
 * the loader reads by. It knows keys, words and how values are written; ranges of values with a
 * unit, references and contradictions only the loader knows. Thread-confined.
 */
final class SiteSchema implements Shape.Teller<ObjectNode> {

    private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

    /** Blocks that stand at more than one place are written once. */
    private static final Map<Block, String> SHARED = shared();

    private final ObjectNode definitions = JSON.objectNode();

    private SiteSchema() {}

    private static Map<Block, String> shared() {
        Map<Block, String> shared = new LinkedHashMap<>();
        shared.put(LimitsReader.BLOCK, "limits");
        shared.put(ChannelReader.PRESSURE, "pressure_channel");
        shared.put(ChannelReader.CONTACT, "contact_channel");
        shared.put(PointReader.TOPIC, "topic");
        return shared;
    }

    static ObjectNode schema() {
        SiteSchema schema = new SiteSchema();
        ObjectNode root = JSON.objectNode();
        root.put("$schema", "https://json-schema.org/draft/2020-12/schema");
        root.put("title", "site.yaml of leat");
        root.setAll(schema.content(SiteReader.BLOCK));
        root.set("$defs", schema.definitions);
        return root;
    }

    @Override
    public ObjectNode form(Form<?> form) {
        return object(form.schema());
    }

    @Override
    public ObjectNode block(Block block) {
        String name = SHARED.get(block);
        if (name == null) {
            return content(block);
        }
        if (!definitions.has(name)) {
            definitions.set(name, content(block));
        }
        return JSON.objectNode().put("$ref", "#/$defs/" + name);
    }

    @Override
    public ObjectNode named(Named named) {
        ObjectNode node = JSON.objectNode();
        node.put("type", "object");
        node.put("minProperties", 1);
        node.putObject("propertyNames").put("pattern", "^" + Named.NAME.pattern() + "$");
        node.set("additionalProperties", named.each().tell(this));
        return node;
    }

    @Override
    public ObjectNode pair(Pair pair) {
        ObjectNode node = JSON.objectNode();
        node.put("type", "array");
        node.set("items", pair.each().tell(this));
        node.put("minItems", 2);
        node.put("maxItems", 2);
        return node;
    }

    private ObjectNode content(Block block) {
        ObjectNode node = JSON.objectNode();
        if (block.mayBeEmpty()) {
            node.putArray("type").add("object").add("null");
        } else {
            node.put("type", "object");
        }
        ObjectNode properties = node.putObject("properties");
        ArrayNode required = JSON.arrayNode();
        for (Entry entry : block.entries()) {
            properties.set(entry.name(), property(entry));
            if (entry.required()) {
                required.add(entry.name());
            }
        }
        node.put("additionalProperties", false);
        if (!required.isEmpty()) {
            node.set("required", required);
        }
        choices(block, node);
        pairs(block, node);
        return node;
    }

    private ObjectNode property(Entry entry) {
        ObjectNode property = JSON.objectNode();
        property.put("description", entry.meaning());
        property.setAll(entry.shape().tell(this));
        Entry.Teller<ObjectNode> withDefault =
                new Entry.Teller<>() {
                    @Override
                    public ObjectNode key(Key<?> key) {
                        key.schemaDefault().ifPresent(value -> property.putPOJO("default", value));
                        return property;
                    }

                    @Override
                    public ObjectNode part(Part part) {
                        return property;
                    }
                };
        return entry.tell(withDefault);
    }

    private static void choices(Block block, ObjectNode node) {
        ArrayNode all = JSON.arrayNode();
        for (List<String> choice : block.choices()) {
            ArrayNode one = all.addObject().putArray("oneOf");
            choice.forEach(name -> one.addObject().putArray("required").add(name));
        }
        if (!all.isEmpty()) {
            node.set("allOf", all);
        }
    }

    private static void pairs(Block block, ObjectNode node) {
        if (!block.pairs().isEmpty()) {
            ObjectNode needs = node.putObject("dependentRequired");
            block.pairs().forEach(p -> needs.putArray(p.get(0)).add(p.get(1)));
        }
    }

    private static ObjectNode object(Map<String, Object> keywords) {
        return new ObjectMapper()
                .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
                .valueToTree(keywords);
    }
}
