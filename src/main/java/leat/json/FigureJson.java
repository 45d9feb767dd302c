package leat.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import com.fasterxml.jackson.databind.ser.std.StdScalarSerializer;
import java.io.IOException;
import leat.measure.Absence;
import leat.measure.Figure;

/**
 * A figure: {@code [1.25, 0.02]}, value and uncertainty; {@code [1.25]} where that is not known; or
 * as a text the key of its {@link Absence}. A startup has some thirty of them: two fit on a page of
 * the store only when they are short.
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
            if (!figure.isPresent()) {
                out.writeString(figure.absentBecause().key());
                return;
            }
            out.writeStartArray();
            out.writeNumber(figure.get());
            if (figure.uncertainty().isPresent()) {
                out.writeNumber(figure.uncertainty().getAsDouble());
            }
            out.writeEndArray();
        }
    }

    static final class Reader extends StdScalarDeserializer<Figure> {
        Reader() {
            super(Figure.class);
        }

        @Override
        public Figure deserialize(JsonParser in, DeserializationContext context)
                throws IOException {
            if (in.hasToken(JsonToken.VALUE_STRING)) {
                return Figure.absent(Absence.byKey(in.getText()).orElse(Absence.REASON_NOT_KNOWN));
            }
            double[] numbers = in.readValueAs(double[].class);
            return numbers.length == 1 ? Figure.of(numbers[0]) : Figure.of(numbers[0], numbers[1]);
        }

        /** Of a figure that the leat of that time did not know. */
        @Override
        public Figure getNullValue(DeserializationContext context) {
            return Figure.absent(Absence.NOT_MEASURED_THEN);
        }
    }
}
