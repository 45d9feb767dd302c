package leat.wire;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Values one after the other. */
record ListForm(Form item) implements Form {

    @Override
    public void write(Written to, Object list) {
        int begin = to.open(Tag.LIST);
        for (Object value : (List<?>) list) {
            item.write(to, value);
        }
        to.close(begin);
    }

    @Override
    public Object read(Taken from) {
        int end = from.block(Tag.LIST);
        List<Object> values = new ArrayList<>();
        while (from.isBefore(end)) {
            values.add(item.read(from));
        }
        return List.copyOf(values);
    }

    @Override
    public Optional<Object> empty() {
        return Optional.of(List.of());
    }
}
