package leat.config;

import static java.util.Objects.requireNonNull;

/**
 * A key under which more than one value stands.
 *
 * @param name its key in the file
 * @param required whether it must be there
 * @param shape what stands under it
 * @param meaning what it is for
 */
record Part(String name, boolean required, Shape shape, String meaning) implements Entry {

    Part {
        requireNonNull(name, "name");
        requireNonNull(shape, "shape");
        requireNonNull(meaning, "meaning");
    }

    static Part required(String name, Shape shape, String meaning) {
        return new Part(name, true, shape, meaning);
    }

    static Part optional(String name, Shape shape, String meaning) {
        return new Part(name, false, shape, meaning);
    }

    @Override
    public <R> R tell(Teller<R> teller) {
        return teller.part(this);
    }
}
