package leat.wire;

import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A record by its components: nothing else has to be declared. It is made by its canonical
 * constructor, which refuses what cannot be.
 *
 * @param make the canonical constructor
 * @param components in the order of the constructor
 */
record RecordForm(Constructor<?> make, List<Component> components) {

    /**
     * @param get its accessor
     */
    private record Component(String name, Method get, Form<Object> form) {

        @SuppressWarnings("unchecked")
        static Component of(RecordComponent component) {
            Method get = component.getAccessor();
            get.setAccessible(true); // a record is often of its own room only
            Form<?> form = Forms.of(component.getGenericType());
            return new Component(component.getName(), get, (Form<Object>) form);
        }

        void write(Written to, Object whole) {
            to.label(name);
            try {
                form.write(to, get.invoke(whole));
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException(get + " gives no value", e);
            }
        }

        /** Its value, or what is naturally empty where the stored record lacks it. */
        Object read(Taken from) {
            return from.finds(name)
                    ? form.read(from)
                    : form.empty().orElseThrow(() -> from.damaged("there is no " + name));
        }
    }

    static RecordForm of(Class<?> type) {
        List<Component> components = new ArrayList<>();
        List<Class<?>> types = new ArrayList<>();
        for (RecordComponent component : type.getRecordComponents()) {
            components.add(Component.of(component));
            types.add(component.getType());
        }
        try {
            Constructor<?> make = type.getDeclaredConstructor(types.toArray(Class<?>[]::new));
            make.setAccessible(true);
            return new RecordForm(make, components);
        } catch (NoSuchMethodException e) {
            throw new IllegalStateException(type + " has no canonical constructor", e);
        }
    }

    Form<Object> form() {
        return new Form<>(
                (to, whole) -> to.block(Tag.FIELDS, () -> write(to, whole)),
                from -> read(from, from.block(Tag.FIELDS)),
                Optional.empty());
    }

    /** One of the records of a sealed interface: its simple name, and its components. */
    static Form<Object> oneOf(Class<?> type) {
        Map<String, RecordForm> kinds =
                records(type).collect(Collectors.toMap(Class::getSimpleName, RecordForm::of));
        return new Form<>(
                (to, whole) ->
                        to.block(
                                Tag.KIND,
                                () -> {
                                    String name = whole.getClass().getSimpleName();
                                    to.label(name);
                                    kinds.get(name).write(to, whole);
                                }),
                from -> {
                    int end = from.block(Tag.KIND);
                    String name = from.label();
                    return Optional.ofNullable(kinds.get(name))
                            .orElseThrow(
                                    () -> from.damaged(name + " is no " + type.getSimpleName()))
                            .read(from, end);
                },
                Optional.empty());
    }

    private static Stream<Class<?>> records(Class<?> type) {
        return type.isSealed()
                ? Stream.of(type.getPermittedSubclasses()).flatMap(RecordForm::records)
                : Stream.of(type);
    }

    private void write(Written to, Object whole) {
        components.forEach(component -> component.write(to, whole));
    }

    /** Of the fields from here to {@code end}. */
    private Object read(Taken from, int end) {
        Object[] values = new Object[components.size()];
        from.fields(
                end,
                () -> {
                    for (int i = 0; i < values.length; i++) {
                        values[i] = components.get(i).read(from);
                    }
                });
        try {
            return make.newInstance(values);
        } catch (InvocationTargetException e) {
            if (e.getCause() instanceof Error error) {
                throw error;
            }
            String type = make.getDeclaringClass().getSimpleName();
            throw from.damaged(type + ": " + e.getCause().getMessage());
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(make + " makes nothing", e);
        }
    }
}
