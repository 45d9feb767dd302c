package leat.wire;

import java.lang.reflect.ParameterizedType;
import java.lang.reflect.Type;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Function;

/** Which form the values of a type have. */
final class Forms {

    /** To look up the components of a record takes longer than to write a whole state. */
    private static final ClassValue<Form> OF =
            new ClassValue<>() {
                @Override
                protected Form computeValue(Class<?> type) {
                    return find(type);
                }
            };

    private static final Form BOOL =
            new Simple<Boolean>(Written::bool, Taken::bool, Optional.of(false));
    private static final Form INTEGER =
            new Simple<Integer>(Written::whole, Taken::integer, Optional.of(0));
    private static final Form WHOLE =
            new Simple<Long>(Written::whole, Taken::whole, Optional.of(0L));
    private static final Form REAL =
            new Simple<Double>(Written::real, Taken::real, Optional.of(0.0));
    private static final Form TEXT =
            new Simple<String>(Written::text, Taken::text, Optional.of(""));

    private static final Map<Class<?>, Form> NATURAL =
            Map.ofEntries(
                    Map.entry(boolean.class, BOOL),
                    Map.entry(Boolean.class, BOOL),
                    Map.entry(int.class, INTEGER),
                    Map.entry(Integer.class, INTEGER),
                    Map.entry(long.class, WHOLE),
                    Map.entry(Long.class, WHOLE),
                    Map.entry(double.class, REAL),
                    Map.entry(Double.class, REAL),
                    Map.entry(String.class, TEXT),
                    Map.entry(
                            OptionalInt.class,
                            new Seen<OptionalInt, Optional<Integer>>(
                                    optional(INTEGER),
                                    o -> o.isPresent() ? Optional.of(o.getAsInt()) : none(),
                                    o -> o.map(OptionalInt::of).orElseGet(OptionalInt::empty))),
                    Map.entry(
                            OptionalLong.class,
                            new Seen<OptionalLong, Optional<Long>>(
                                    optional(WHOLE),
                                    o -> o.isPresent() ? Optional.of(o.getAsLong()) : none(),
                                    o -> o.map(OptionalLong::of).orElseGet(OptionalLong::empty))),
                    Map.entry(
                            OptionalDouble.class,
                            new Seen<OptionalDouble, Optional<Double>>(
                                    optional(REAL),
                                    o -> o.isPresent() ? Optional.of(o.getAsDouble()) : none(),
                                    o ->
                                            o.map(OptionalDouble::of)
                                                    .orElseGet(OptionalDouble::empty))));

    private Forms() {}

    static Form of(Class<?> type) {
        return OF.get(type);
    }

    /** Of the type of a record's component. */
    static Form of(Type type) {
        if (type instanceof Class<?> plain) {
            return of(plain);
        }
        if (!(type instanceof ParameterizedType generic)) {
            throw noForm(type);
        }
        Type[] of = generic.getActualTypeArguments();
        Class<?> raw = (Class<?>) generic.getRawType();
        if (raw == Optional.class) {
            return optional(of(of[0]));
        }
        if (raw == List.class) {
            return list(of(of[0]));
        }
        if (raw == Set.class && of[0] instanceof Class<?> constants && constants.isEnum()) {
            return set(constants);
        }
        if (raw == Map.class && of[0] instanceof Class<?> keys) {
            return map(keys, of(of[1]));
        }
        throw noForm(type);
    }

    private static IllegalStateException noForm(Type type) {
        return new IllegalStateException("there is no form for a state of " + type);
    }

    static Form optional(Form value) {
        return new OptionalForm(value);
    }

    static Form list(Form item) {
        return new ListForm(item);
    }

    static Form map(Class<?> keys, Form value) {
        if (keys != String.class && !keys.isEnum()) {
            throw noForm(keys);
        }
        return new MapForm(keys, of(keys), value);
    }

    /** A list in the order of the constants. */
    @SuppressWarnings({"unchecked", "rawtypes"})
    private static Form set(Class<?> constants) {
        return new Seen<Set<?>, List<?>>(
                list(of(constants)),
                set -> {
                    EnumSet sorted = EnumSet.noneOf((Class) constants);
                    sorted.addAll(set);
                    return List.copyOf(sorted);
                },
                list -> {
                    EnumSet sorted = EnumSet.noneOf((Class) constants);
                    sorted.addAll(list);
                    return Collections.unmodifiableSet(sorted);
                });
    }

    private static Form find(Class<?> type) {
        if (type.isEnum()) {
            return new Simple<Enum<?>>(
                    (to, value) -> to.name(value.name()),
                    from -> constant(type, from),
                    Optional.empty());
        }
        if (type.isRecord()) {
            return RecordForm.of(type);
        }
        if (type.isSealed() && type.isInterface()) {
            return KindForm.of(type);
        }
        return Optional.ofNullable(NATURAL.get(type)).orElseThrow(() -> noForm(type));
    }

    @SuppressWarnings({"unchecked", "rawtypes"})
    private static Enum<?> constant(Class<?> type, Taken from) {
        String name = from.name();
        try {
            return Enum.valueOf((Class) type, name);
        } catch (IllegalArgumentException e) {
            throw from.damaged("no " + type.getSimpleName() + " is called " + name);
        }
    }

    private static <T> Optional<T> none() {
        return Optional.empty();
    }

    /** One value behind one tag. */
    private record Simple<T>(
            BiConsumer<Written, T> down, Function<Taken, T> up, Optional<Object> empty)
            implements Form {

        @Override
        @SuppressWarnings("unchecked")
        public void write(Written to, Object value) {
            down.accept(to, (T) value);
        }

        @Override
        public Object read(Taken from) {
            return up.apply(from);
        }
    }

    /** A type that is written as another, which has an empty value. */
    private record Seen<T, S>(Form as, Function<T, S> down, Function<S, T> up) implements Form {

        @Override
        @SuppressWarnings("unchecked")
        public void write(Written to, Object value) {
            as.write(to, down.apply((T) value));
        }

        @Override
        @SuppressWarnings("unchecked")
        public Object read(Taken from) {
            return up.apply((S) as.read(from));
        }

        @Override
        @SuppressWarnings("unchecked")
        public Optional<Object> empty() {
            return as.empty().map(none -> up.apply((S) none));
        }
    }
}
