package leat.wiring;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.LinkedHashMap;
import java.util.Map;

/** What single values stand in a JSON document, and where. Bounded, however large that is. */
final class JsonLeaves {

    private static final int MOST = 64;
    private static final int DEEPEST = 8;

    private JsonLeaves() {}

    /** By its place, in the order of the document. */
    static Map<JsonPointer, JsonNode> of(JsonNode root) {
        Map<JsonPointer, JsonNode> leaves = new LinkedHashMap<>();
        walk(root, JsonPointer.empty(), 0, leaves);
        return leaves;
    }

    private static void walk(
            JsonNode node, JsonPointer at, int depth, Map<JsonPointer, JsonNode> leaves) {
        if (leaves.size() == MOST || depth > DEEPEST) {
            return;
        }
        if (node.isObject()) {
            node.properties()
                    .forEach(
                            field ->
                                    walk(
                                            field.getValue(),
                                            at.appendProperty(field.getKey()),
                                            depth + 1,
                                            leaves));
        } else if (node.isArray()) {
            for (int i = 0; i < node.size() && leaves.size() < MOST; i++) {
                walk(node.get(i), at.appendIndex(i), depth + 1, leaves);
            }
        } else if (node.isValueNode()) {
            leaves.put(at, node);
        }
    }
}
