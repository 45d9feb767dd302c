package leat.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.StdScalarSerializer;
import java.io.IOException;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Predicate;
import leat.measure.Figure;

/** The forms of values that are no records, or not written as such. */
final class ValueForms extends SimpleModule {

    ValueForms() {
        super("leat");
        optional(
                OptionalLong.class,
                OptionalLong::isEmpty,
                (value, out) -> out.writeNumber(value.getAsLong()),
                in -> OptionalLong.of(in.getLongValue()),
                OptionalLong.empty());
        optional(
                OptionalInt.class,
                OptionalInt::isEmpty,
                (value, out) -> out.writeNumber(value.getAsInt()),
                in -> OptionalInt.of(in.getIntValue()),
                OptionalInt.empty());
        optional(
                OptionalDouble.class,
                OptionalDouble::isEmpty,
                (value, out) -> out.writeNumber(value.getAsDouble()),
                in -> OptionalDouble.of(Double.parseDouble(in.getText())),
                OptionalDouble.empty());
        addSerializer(new OptionalJson.Writer());
        addDeserializer(Optional.class, new OptionalJson.Reader());
        addSerializer(Figure.class, new FigureJson.Writer());
        addDeserializer(Figure.class, new FigureJson.Reader());
        setDeserializerModifier(new KnownKeys());
    }

    private interface Put<T> {
        void to(T value, JsonGenerator out) throws IOException;
    }

    private interface Take<T> {
        T from(JsonParser in) throws IOException;
    }

    private <T> void optional(
            Class<T> type, Predicate<T> isEmpty, Put<T> put, Take<T> take, T empty) {
        addSerializer(
                type,
                new StdScalarSerializer<T>(type) {
                    @Override
                    public boolean isEmpty(SerializerProvider provider, T value) {
                        return isEmpty.test(value);
                    }

                    @Override
                    public void serialize(T value, JsonGenerator out, SerializerProvider provider)
                            throws IOException {
                        put.to(value, out);
                    }
                });
        addDeserializer(
                type,
                new StdScalarDeserializer<T>(type) {
                    @Override
                    public T deserialize(JsonParser in, DeserializationContext context)
                            throws IOException {
                        return take.from(in);
                    }

                    @Override
                    public T getNullValue(DeserializationContext context) {
                        return empty;
                    }
                });
    }
}
