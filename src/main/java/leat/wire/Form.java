package leat.wire;

import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Function;

/**
 * How the values of one type are written down and taken up: a tag, and what belongs to it.
 *
 * @param down writes a value
 * @param up reads one; throws {@link IllegalArgumentException} when something else stands there
 * @param empty what stands for it in a record that lacks it; empty when nothing can
 */
record Form<T>(BiConsumer<Written, T> down, Function<Taken, T> up, Optional<T> empty) {

    void write(Written to, T value) {
        down.accept(to, value);
    }

    T read(Taken from) {
        return up.apply(from);
    }

    /** The form of a type whose values are written as those of this one. */
    <S> Form<S> as(Function<S, T> seen, Function<T, S> made) {
        return new Form<>(
                (to, value) -> write(to, seen.apply(value)),
                from -> made.apply(read(from)),
                empty.map(made));
    }
}
