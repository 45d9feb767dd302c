package leat.json;

import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.databind.JavaType;
import com.fasterxml.jackson.databind.cfg.MapperConfig;
import com.fasterxml.jackson.databind.introspect.Annotated;
import com.fasterxml.jackson.databind.introspect.AnnotatedClass;
import com.fasterxml.jackson.databind.introspect.NopAnnotationIntrospector;
import com.fasterxml.jackson.databind.jsontype.NamedType;
import com.fasterxml.jackson.databind.jsontype.TypeResolverBuilder;
import com.fasterxml.jackson.databind.jsontype.impl.StdTypeResolverBuilder;
import java.util.List;

/** What the declaration of a type says of its form, without any annotation. Thread-safe. */
final class RecordForm extends NopAnnotationIntrospector {

    /** Of a sealed interface the field {@code kind} says which record it is. */
    @Override
    public TypeResolverBuilder<?> findTypeResolver(
            MapperConfig<?> config, AnnotatedClass type, JavaType base) {
        return type.getRawType().isSealed()
                ? new StdTypeResolverBuilder()
                        .init(
                                JsonTypeInfo.Value.construct(
                                        JsonTypeInfo.Id.NAME,
                                        JsonTypeInfo.As.PROPERTY,
                                        "kind",
                                        null,
                                        false,
                                        true,
                                        true),
                                null)
                : null;
    }

    @Override
    public List<NamedType> findSubtypes(Annotated annotated) {
        return annotated.getRawType().isSealed()
                ? Kinds.of(annotated.getRawType()).types().entrySet().stream()
                        .map(kind -> new NamedType(kind.getValue(), kind.getKey()))
                        .toList()
                : null;
    }

    /** The key of a constant that has one; else its name in lower case with dashes. */
    @Override
    public String[] findEnumValues(
            MapperConfig<?> config, AnnotatedClass type, Enum<?>[] constants, String[] names) {
        for (int i = 0; i < constants.length; i++) {
            names[i] = Words.of(constants[i], '-');
        }
        return names;
    }
}
