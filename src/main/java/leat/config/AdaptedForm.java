package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * Written like one kind of value, but another inside leat.
 *
 * @param <A> as it is read
 * @param <B> as it is handed on
 * @param form how it is written
 * @param to from what is read to what is handed on
 * @param from back again
 */
record AdaptedForm<A, B>(Form<A> form, Function<A, B> to, Function<B, A> from) implements Form<B> {

    AdaptedForm {
        requireNonNull(form, "form");
        requireNonNull(to, "to");
        requireNonNull(from, "from");
    }

    @Override
    public Optional<B> read(Cursor at) {
        return form.read(at).map(to);
    }

    @Override
    public String print(B value) {
        return form.print(from.apply(value));
    }

    @Override
    public String unit() {
        return form.unit();
    }

    @Override
    public String min() {
        return form.min();
    }

    @Override
    public String max() {
        return form.max();
    }

    @Override
    public Map<String, Object> schema() {
        return form.schema();
    }

    @Override
    public Object schemaValue(B value) {
        return form.schemaValue(from.apply(value));
    }
}
