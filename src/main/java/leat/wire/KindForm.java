package leat.wire;

import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** One of the records of a sealed interface: its simple name, and its components. */
record KindForm(String of, Map<String, RecordForm> kinds) implements Form {

    static KindForm of(Class<?> type) {
        Map<String, RecordForm> kinds = new TreeMap<>();
        records(type)
                .forEach(
                        kind -> {
                            if (kinds.put(kind.getSimpleName(), RecordForm.of(kind)) != null) {
                                throw new IllegalStateException(
                                        "two records of " + type + " have the name of " + kind);
                            }
                        });
        return new KindForm(type.getSimpleName(), kinds);
    }

    private static Stream<Class<?>> records(Class<?> type) {
        if (type.isRecord()) {
            return Stream.of(type);
        }
        if (!type.isSealed()) {
            throw new IllegalStateException("neither a record nor sealed: " + type);
        }
        return Arrays.stream(type.getPermittedSubclasses()).flatMap(KindForm::records);
    }

    @Override
    public void write(Written to, Object record) {
        String name = record.getClass().getSimpleName();
        int begin = to.open(Tag.KIND);
        to.label(name);
        kinds.get(name).writeFields(to, record);
        to.close(begin);
    }

    @Override
    public Object read(Taken from) {
        int end = from.block(Tag.KIND);
        String name = from.label();
        RecordForm kind = kinds.get(name);
        if (kind == null) {
            throw from.damaged("no " + of + " is a " + name);
        }
        return kind.readFields(from, end);
    }
}
