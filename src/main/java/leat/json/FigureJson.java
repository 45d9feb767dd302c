package leat.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import com.fasterxml.jackson.databind.ser.std.StdScalarSerializer;
import java.io.IOException;
import leat.measure.Figure;

/**
 * A figure: {@code {"value": 1.25, "uncertainty": 0.02}}, without its uncertainty where that is not
 * known, or {@code {"absent": "why"}}.
 */
final class FigureJson {

    private FigureJson() {}

    static final class Writer extends StdScalarSerializer<Figure> {
        Writer() {
            super(Figure.class);
        }

        @Override
        public void serialize(Figure figure, JsonGenerator out, SerializerProvider provider)
                throws IOException {
            out.writeStartObject();
            if (figure.isPresent()) {
                out.writeNumberField("value", figure.get());
                if (figure.uncertainty().isPresent()) {
                    out.writeNumberField("uncertainty", figure.uncertainty().getAsDouble());
                }
            } else {
                out.writeStringField("absent", figure.absentBecause());
            }
            out.writeEndObject();
        }
    }

    static final class Reader extends StdScalarDeserializer<Figure> {
        Reader() {
            super(Figure.class);
        }

        @Override
        public Figure deserialize(JsonParser in, DeserializationContext context)
                throws IOException {
            JsonNode json = in.readValueAsTree();
            if (json.has("absent")) {
                return Figure.absent(json.get("absent").textValue());
            }
            double value = json.path("value").doubleValue();
            return json.has("uncertainty")
                    ? Figure.of(value, json.get("uncertainty").doubleValue())
                    : Figure.of(value);
        }

        /** Of a figure that the leat of that time did not know. */
        @Override
        public Figure getNullValue(DeserializationContext context) {
            return Figure.absent("not measured at that time");
        }
    }
}
