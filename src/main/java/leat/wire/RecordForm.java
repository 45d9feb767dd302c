package leat.wire;

import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.List;
import java.util.stream.Stream;

/**
 * A record by its components: nothing else has to be declared. It is made by its canonical
 * constructor, which refuses what cannot be.
 *
 * @param make the canonical constructor
 * @param components in the order of the constructor
 */
record RecordForm(Constructor<?> make, List<Component> components) implements Form {

    /**
     * @param get its accessor
     */
    record Component(String name, Method get, Form form) {

        static Component of(RecordComponent component) {
            Method get = component.getAccessor();
            get.setAccessible(true); // a record is often of its own room only
            return new Component(component.getName(), get, Forms.of(component.getGenericType()));
        }

        Object of(Object record) {
            try {
                return get.invoke(record);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException(get + " gives no value", e);
            }
        }

        /** Its value, or what is naturally empty where the stored record lacks it. */
        Object read(Taken from) {
            return from.finds(name)
                    ? from.leave(form.read(from))
                    : form.empty().orElseThrow(() -> from.damaged("there is no " + name));
        }
    }

    static RecordForm of(Class<?> type) {
        RecordComponent[] components = type.getRecordComponents();
        Class<?>[] types =
                Stream.of(components).map(RecordComponent::getType).toArray(Class<?>[]::new);
        try {
            Constructor<?> make = type.getDeclaredConstructor(types);
            make.setAccessible(true);
            return new RecordForm(make, Stream.of(components).map(Component::of).toList());
        } catch (NoSuchMethodException e) {
            throw new IllegalStateException(type + " has no canonical constructor", e);
        }
    }

    @Override
    public void write(Written to, Object record) {
        int begin = to.open(Tag.FIELDS);
        writeFields(to, record);
        to.close(begin);
    }

    void writeFields(Written to, Object record) {
        for (Component component : components) {
            to.label(component.name());
            component.form().write(to, component.of(record));
        }
    }

    @Override
    public Object read(Taken from) {
        return readFields(from, from.block(Tag.FIELDS));
    }

    /** Of the fields from here to {@code end}. */
    Object readFields(Taken from, int end) {
        Fields outer = from.open(end);
        Object[] values = components.stream().map(c -> c.read(from)).toArray();
        from.close(outer);
        from.go(end);
        try {
            return make.newInstance(values);
        } catch (InvocationTargetException e) {
            throw from.damaged(make.getDeclaringClass().getSimpleName() + ": " + why(e));
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(make + " makes nothing", e);
        }
    }

    private static String why(InvocationTargetException refusal) {
        if (refusal.getCause() instanceof Error error) {
            throw error;
        }
        return refusal.getCause().getMessage();
    }
}
