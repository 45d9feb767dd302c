package leat.wire;

import java.util.Optional;

/** The value, or the mark that there is none. */
record OptionalForm(Form value) implements Form {

    @Override
    public void write(Written to, Object optional) {
        ((Optional<?>) optional).ifPresentOrElse(v -> value.write(to, v), to::none);
    }

    @Override
    public Object read(Taken from) {
        return from.isNone() ? Optional.empty() : Optional.of(value.read(from));
    }

    @Override
    public Optional<Object> empty() {
        return Optional.of(Optional.empty());
    }
}
