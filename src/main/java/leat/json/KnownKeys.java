package leat.json;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.BeanDescription;
import com.fasterxml.jackson.databind.DeserializationConfig;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.deser.BeanDeserializerModifier;
import com.fasterxml.jackson.databind.deser.std.DelegatingDeserializer;
import com.fasterxml.jackson.databind.type.CollectionType;
import com.fasterxml.jackson.databind.type.MapType;
import java.io.IOException;
import java.util.Collection;
import java.util.Map;
import java.util.Objects;

/**
 * Leaves out of a map what stands under a constant that no longer exists, and of a list what leat
 * no longer says.
 */
final class KnownKeys extends BeanDeserializerModifier {

    @Override
    public JsonDeserializer<?> modifyMapDeserializer(
            DeserializationConfig config,
            MapType type,
            BeanDescription description,
            JsonDeserializer<?> deserializer) {
        return type.getKeyType().isEnumType() ? new Without(deserializer) : deserializer;
    }

    @Override
    public JsonDeserializer<?> modifyCollectionDeserializer(
            DeserializationConfig config,
            CollectionType type,
            BeanDescription description,
            JsonDeserializer<?> deserializer) {
        return new Without(deserializer);
    }

    private static final class Without extends DelegatingDeserializer {
        Without(JsonDeserializer<?> all) {
            super(all);
        }

        @Override
        protected JsonDeserializer<?> newDelegatingInstance(JsonDeserializer<?> all) {
            return new Without(all);
        }

        @Override
        public Object deserialize(JsonParser in, DeserializationContext context)
                throws IOException {
            Object all = super.deserialize(in, context);
            if (all instanceof Map<?, ?> map) {
                map.remove(null);
            } else {
                ((Collection<?>) all).removeIf(Objects::isNull);
            }
            return all;
        }
    }
}
