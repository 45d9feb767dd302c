package leat.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A JSON Schema of {@code config/}, held against the documents that it describes. */
public final class SchemaFile {

    private final JsonNode root;

    private SchemaFile(JsonNode root) {
        this.root = root;
    }

    /**
     * @param name the file's, without its folder
     */
    public static SchemaFile read(String name) throws IOException {
        return new SchemaFile(new ObjectMapper().readTree(Path.of("config", name).toFile()));
    }

    /** A place in the schema by its JSON pointer. */
    public JsonNode at(String pointer) {
        return root.at(pointer);
    }

    /** The words of an enumeration in it, in order. */
    public List<String> words(String pointer) {
        List<String> words = new ArrayList<>();
        at(pointer).forEach(word -> words.add(word.asText()));
        return words;
    }

    /**
     * What is wrong with a document: what a validator that we did not write finds, and every field
     * that the schema does not tell of.
     */
    public List<String> problems(JsonNode document) {
        List<String> problems = new ArrayList<>();
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(root)
                .validate(document)
                .forEach(error -> problems.add(error.toString()));
        untold(root, document, "", problems);
        return problems;
    }

    private void untold(JsonNode schema, JsonNode value, String where, List<String> into) {
        JsonNode says = resolved(schema, value);
        if (value.isArray()) {
            value.forEach(item -> untold(says.path("items"), item, where + "/*", into));
        } else if (value.isObject()) {
            value.properties()
                    .forEach(
                            field -> {
                                String at = where + "/" + field.getKey();
                                JsonNode told = told(says, field.getKey());
                                if (told.isMissingNode()) {
                                    into.add(at + " is not in the schema");
                                } else {
                                    untold(told, field.getValue(), at, into);
                                }
                            });
        }
    }

    private JsonNode resolved(JsonNode schema, JsonNode value) {
        if (schema.has("$ref")) {
            return resolved(root.at(schema.get("$ref").asText().substring(1)), value);
        }
        for (JsonNode branch : schema.path("anyOf")) {
            JsonNode one = resolved(branch, value);
            if (value.isObject() && one.has("properties")) {
                return one;
            }
        }
        return schema;
    }

    private static JsonNode told(JsonNode schema, String field) {
        if (schema.path("properties").has(field)) {
            return schema.get("properties").get(field);
        }
        for (var pattern : schema.path("patternProperties").properties()) {
            if (field.matches(".*" + pattern.getKey())) {
                return pattern.getValue();
            }
        }
        return schema.path("additionalProperties");
    }
}
