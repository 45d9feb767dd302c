package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * One setting.
 *
 * @param <T> what its value is inside leat
 * @param name its key in the file
 * @param form how its value is written
 * @param required whether it must be there
 * @param fallback its default
 * @param origin where the default comes from; empty without a default
 * @param meaning what it means
 */
record Key<T>(
        String name,
        Form<T> form,
        boolean required,
        Optional<T> fallback,
        String origin,
        String meaning)
        implements Entry {

    /** A default that leat chose because something had to be chosen. */
    static final String CHOICE = "leat's own choice";

    Key {
        requireNonNull(name, "name");
        requireNonNull(form, "form");
        requireNonNull(fallback, "fallback");
        requireNonNull(origin, "origin");
        requireNonNull(meaning, "meaning");
    }

    static <T> Key<T> required(String name, Form<T> form, String meaning) {
        return new Key<>(name, form, true, Optional.empty(), "", meaning);
    }

    static <T> Key<T> optional(String name, Form<T> form, String meaning) {
        return new Key<>(name, form, false, Optional.empty(), "", meaning);
    }

    static <T> Key<T> withDefault(
            String name, Form<T> form, T fallback, String origin, String meaning) {
        return new Key<>(name, form, false, Optional.of(fallback), origin, meaning);
    }

    /** The default as it would be written; empty without one. */
    String printedDefault() {
        return fallback.map(form::print).orElse("");
    }

    Optional<Object> schemaDefault() {
        return fallback.map(form::schemaValue);
    }

    @Override
    public Shape shape() {
        return form;
    }

    @Override
    public <R> R tell(Teller<R> teller) {
        return teller.key(this);
    }
}
