package leat.json;

import com.fasterxml.jackson.annotation.JsonAutoDetect.Visibility;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonSetter;
import com.fasterxml.jackson.annotation.Nulls;
import com.fasterxml.jackson.annotation.PropertyAccessor;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;

/**
 * Writes records as compact JSON in ASCII and takes them up again, equal to the last bit. What is
 * empty is left out: an empty text, list, map or optional. A field that a document lacks is empty,
 * so that a record may grow; one that the record does not know is passed over, and so is a number
 * that leat no longer measures. Thread-safe.
 */
public final class RecordJson {

    private static final ObjectMapper MAPPER = mapper();

    private RecordJson() {}

    private static ObjectMapper mapper() {
        JsonMapper.Builder builder =
                JsonMapper.builder()
                        .annotationIntrospector(new RecordForm())
                        .propertyNamingStrategy(new FieldNames())
                        .visibility(PropertyAccessor.ALL, Visibility.NONE)
                        .visibility(PropertyAccessor.FIELD, Visibility.ANY)
                        .visibility(PropertyAccessor.CREATOR, Visibility.ANY)
                        .defaultPropertyInclusion(
                                JsonInclude.Value.construct(
                                        JsonInclude.Include.NON_EMPTY, JsonInclude.Include.ALWAYS))
                        .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
                        .enable(DeserializationFeature.READ_UNKNOWN_ENUM_VALUES_AS_NULL)
                        .enable(JsonWriteFeature.ESCAPE_NON_ASCII)
                        .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
                        .addModule(new Jdk8Module())
                        .addModule(new ValueForms());
        for (Class<?> type :
                new Class<?>[] {String.class, java.util.List.class, java.util.Map.class}) {
            builder.withConfigOverride(
                    type,
                    form -> form.setSetterInfo(JsonSetter.Value.forValueNulls(Nulls.AS_EMPTY)));
        }
        return builder.build();
    }

    /** A record, for whoever will know what it is. */
    public static String write(Object record) {
        return write(Object.class, record);
    }

    /**
     * @param type that of the record, or a sealed interface of it: then {@code kind} comes first
     */
    public static <T> String write(Class<T> type, T value) {
        try {
            return (type == Object.class ? MAPPER.writer() : MAPPER.writerFor(type))
                    .writeValueAsString(value);
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException("no JSON of " + type.getSimpleName(), e);
        }
    }

    /**
     * What {@link #write} wrote for the same type.
     *
     * @throws IllegalArgumentException when it is no such record
     */
    public static <T> T read(Class<T> type, String json) {
        try {
            return MAPPER.readerFor(type).readValue(json);
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException(
                    "this is no " + type.getSimpleName() + ": " + e.getOriginalMessage(), e);
        }
    }
}
