package leat.json;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import java.io.IOException;
import leat.measure.ClimbRemark;

/** Takes up {@code {"kind": "from-curve"}}; null where leat no longer makes such a remark. */
final class ClimbRemarkReader extends StdDeserializer<ClimbRemark> {

    ClimbRemarkReader() {
        super(ClimbRemark.class);
    }

    @Override
    public ClimbRemark deserialize(JsonParser in, DeserializationContext context)
            throws IOException {
        JsonNode remark = in.readValueAsTree();
        return ClimbRemark.Kind.byKey(remark.path("kind").asText())
                .map(ClimbRemark::new)
                .orElse(null);
    }
}
