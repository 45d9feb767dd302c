package leat.wire;

import java.lang.reflect.ParameterizedType;
import java.lang.reflect.Type;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Supplier;

/** Which form the values of a type have. */
final class Forms {

    static final Form<Boolean> BOOL = new Form<>(Written::bool, Taken::bool, Optional.of(false));
    static final Form<Integer> INTEGER =
            new Form<Integer>(Written::whole, Taken::integer, Optional.of(0));
    static final Form<Long> WHOLE = new Form<Long>(Written::whole, Taken::whole, Optional.of(0L));
    static final Form<Double> REAL = new Form<>(Written::real, Taken::real, Optional.of(0.0));
    static final Form<String> TEXT = new Form<>(Written::text, Taken::text, Optional.of(""));
    static final Form<long[]> WHOLES = new Form<>(Written::wholes, Taken::wholes, Optional.empty());
    static final Form<double[]> REALS = new Form<>(Written::reals, Taken::reals, Optional.empty());

    private static final Map<Class<?>, Form<?>> SIMPLE =
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
                            optional(INTEGER)
                                    .<OptionalInt>as(
                                            o ->
                                                    o.isPresent()
                                                            ? Optional.of(o.getAsInt())
                                                            : Optional.empty(),
                                            o ->
                                                    o.map(OptionalInt::of)
                                                            .orElseGet(OptionalInt::empty))),
                    Map.entry(
                            OptionalLong.class,
                            optional(WHOLE)
                                    .<OptionalLong>as(
                                            o ->
                                                    o.isPresent()
                                                            ? Optional.of(o.getAsLong())
                                                            : Optional.empty(),
                                            o ->
                                                    o.map(OptionalLong::of)
                                                            .orElseGet(OptionalLong::empty))),
                    Map.entry(
                            OptionalDouble.class,
                            optional(REAL)
                                    .<OptionalDouble>as(
                                            o ->
                                                    o.isPresent()
                                                            ? Optional.of(o.getAsDouble())
                                                            : Optional.empty(),
                                            o ->
                                                    o.map(OptionalDouble::of)
                                                            .orElseGet(OptionalDouble::empty))));

    /** To look up the components of a record takes longer than to write a whole state. */
    private static final ClassValue<Form<?>> OF =
            new ClassValue<>() {
                @Override
                protected Form<?> computeValue(Class<?> type) {
                    return find(type);
                }
            };

    private Forms() {}

    @SuppressWarnings("unchecked")
    static <T> Form<T> of(Class<T> type) {
        return (Form<T>) OF.get(type);
    }

    private static Form<?> find(Class<?> type) {
        if (type.isEnum()) {
            return constant(type);
        }
        if (type.isRecord()) {
            return RecordForm.of(type).form();
        }
        if (type.isSealed()) {
            return RecordForm.oneOf(type);
        }
        return Optional.<Form<?>>ofNullable(SIMPLE.get(type)).orElseThrow(() -> noForm(type));
    }

    /** Of the type of a record's component. */
    static Form<?> of(Type type) {
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
        if (raw == Set.class && of[0] instanceof Class<?> constants) {
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

    /** The value, or the mark that there is none. */
    static <T> Form<Optional<T>> optional(Form<T> value) {
        return new Form<>(
                (to, optional) -> optional.ifPresentOrElse(v -> value.write(to, v), to::none),
                from -> from.isNone() ? Optional.empty() : Optional.of(value.read(from)),
                Optional.of(Optional.empty()));
    }

    static <T> Form<List<T>> list(Form<T> item) {
        return new Form<>(
                (to, list) -> to.block(Tag.LIST, () -> list.forEach(v -> item.write(to, v))),
                from -> {
                    List<T> values = new ArrayList<>();
                    from.block(Tag.LIST, () -> values.add(item.read(from)));
                    return List.copyOf(values);
                },
                Optional.of(List.of()));
    }

    /** Texts in the order of the map, constants in their own. */
    @SuppressWarnings({"unchecked", "rawtypes"})
    static <K, V> Form<Map<K, V>> map(Class<K> keys, Form<V> value) {
        Form<K> key = of(keys);
        Supplier<Map<K, V>> empty = () -> keys.isEnum() ? new EnumMap(keys) : new LinkedHashMap<>();
        return new Form<>(
                (to, map) -> {
                    Map<K, V> ordered = empty.get();
                    ordered.putAll(map);
                    to.block(
                            Tag.MAP,
                            () ->
                                    ordered.forEach(
                                            (k, v) -> {
                                                key.write(to, k);
                                                value.write(to, v);
                                            }));
                },
                from -> {
                    Map<K, V> map = empty.get();
                    from.block(Tag.MAP, () -> map.put(key.read(from), value.read(from)));
                    return Collections.unmodifiableMap(map);
                },
                Optional.of(Map.of()));
    }

    /** A list in the order of the constants. */
    @SuppressWarnings({"unchecked", "rawtypes"})
    private static Form<?> set(Class<?> constants) {
        return list(of(constants))
                .<Set>as(
                        set -> set.stream().sorted().toList(),
                        list -> {
                            Set set = EnumSet.noneOf((Class) constants);
                            set.addAll(list);
                            return Collections.unmodifiableSet(set);
                        });
    }

    @SuppressWarnings({"unchecked", "rawtypes"})
    private static Form<?> constant(Class<?> type) {
        return new Form<Enum<?>>(
                (to, value) -> to.name(value.name()),
                from -> {
                    String name = from.name();
                    try {
                        return Enum.valueOf((Class) type, name);
                    } catch (IllegalArgumentException e) {
                        throw from.damaged("no " + type.getSimpleName() + " is called " + name);
                    }
                },
                Optional.empty());
    }
}
