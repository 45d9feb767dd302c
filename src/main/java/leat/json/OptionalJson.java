package leat.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.BeanProperty;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JavaType;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.ContextualDeserializer;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import com.fasterxml.jackson.databind.type.TypeFactory;
import java.io.IOException;
import java.util.Optional;

/** What may be there: its own form when it is, else nothing at all. */
final class OptionalJson {

    private OptionalJson() {}

    static final class Writer extends StdSerializer<Optional<?>> {
        Writer() {
            super(Optional.class, false);
        }

        @Override
        public boolean isEmpty(SerializerProvider provider, Optional<?> value) {
            return value.isEmpty();
        }

        @Override
        public void serialize(Optional<?> value, JsonGenerator out, SerializerProvider provider)
                throws IOException {
            provider.defaultSerializeValue(value.orElseThrow(), out);
        }
    }

    static final class Reader extends StdDeserializer<Optional<?>>
            implements ContextualDeserializer {

        private final transient JavaType content;

        Reader() {
            this(TypeFactory.unknownType());
        }

        private Reader(JavaType content) {
            super(Optional.class);
            this.content = content;
        }

        @Override
        public JsonDeserializer<?> createContextual(
                DeserializationContext context, BeanProperty property) {
            return new Reader(context.getContextualType().containedType(0));
        }

        @Override
        public Optional<?> deserialize(JsonParser in, DeserializationContext context)
                throws IOException {
            return Optional.ofNullable(context.readValue(in, content));
        }

        @Override
        public Optional<?> getNullValue(DeserializationContext context) {
            return Optional.empty();
        }
    }
}
